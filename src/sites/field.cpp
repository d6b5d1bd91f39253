// SPDX-License-Identifier: Apache-2.0
#include "sites/field.hpp"

#include <algorithm>
#include <cmath>

#include "tidelot/core/grid_vector.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason_codes.hpp"

namespace tidelot {
namespace {

constexpr double kSteps = 1048576.0;  // 2^20
/// Bytes of a cell that are looked at to tell its ground: what closes it, its reason, its depth,
/// its suitability, its yield.
constexpr std::size_t kSurveyed = 17;

bool has_line(double depth_low_water, const Plan& plan, const SiteSize& size) {
  const double depth_high_water = depth_low_water + plan.depth.tidal_range_m;
  return layout_of(size, depth_high_water, plan.farm, plan.sites.line).usable_m > 0.0;
}

void add(Ground ground, bool known, GroundCount& count) {
  const bool open = ground == Ground::poor || ground == Ground::too_deep || ground == Ground::good;
  count.open += open && known ? 1 : 0;
  count.good += ground == Ground::good ? 1 : 0;
  count.too_deep += ground == Ground::too_deep && known ? 1 : 0;
  count.unknown += ground > Ground::good ? 1 : 0;
}

bool for_apart_only(Ground ground) {
  return ground == Ground::depth_unknown || ground == Ground::rule_unknown;
}

bool lies_under(Ground ground, Wanted wanted) {
  return !is_barred(ground) && (!for_apart_only(ground) || wanted == Wanted::apart);
}

}  // namespace

Ground ground_at(const Plan& plan, const ScoredMaps& maps, const SiteSize& size, std::size_t i) {
  const std::uint32_t closed = maps.closed[i];
  if (closed == kClosedUnknown) {
    return std::isnan(maps.depth_low_water[i]) ? Ground::depth_unknown : Ground::rule_unknown;
  }
  if (closed == kClosedNotWater || std::isnan(maps.depth_low_water[i])) {
    return maps.reason[i] == reason::kOutside ? Ground::outside : Ground::land;
  }
  if (closed != 0) {
    return Ground::closed;
  }
  const bool known = !std::isnan(maps.suitability[i]);
  // As a float: the map holds 0.7 as a float, which is a little less than the double 0.7.
  if (known && maps.suitability[i] < static_cast<float>(plan.sites.min_suitability)) {
    return Ground::poor;
  }
  if (!has_line(static_cast<double>(maps.depth_low_water[i]), plan, size)) {
    return Ground::too_deep;
  }
  return known ? Ground::good : Ground::property_unknown;
}

GroundSurvey survey_ground(const Waters& waters) {
  const auto& [plan, grid, maps, size] = waters;
  GroundSurvey survey{{}, Ceiling(grid)};
  for (int row = 0; row < grid.rows; ++row) {
    for (int col = 0; col < grid.cols; ++col) {
      const std::size_t i = grid.index(col, row);
      const Ground ground = ground_at(plan, maps, size, i);
      add(ground, !std::isnan(maps.suitability[i]), survey.count);
      if (ground == Ground::good) {
        survey.ceiling.add_good(col, row, suitability_yield(maps, i));
      } else {
        survey.ceiling.add_other(col, row);
      }
    }
    walked_over(static_cast<std::size_t>(grid.cols) * kSurveyed);
  }
  return survey;
}

double suitability_yield(const ScoredMaps& maps, std::size_t i) {
  return static_cast<double>(maps.suitability[i]) * static_cast<double>(maps.yield_kg_per_m[i]);
}

std::int64_t whole_of(double suitability_yield) {
  return std::isnan(suitability_yield) ? 0 : std::llround(suitability_yield * kSteps);
}

std::int64_t whole_score(float suitability, float yield_kg_per_m) {
  return whole_of(static_cast<double>(suitability) * static_cast<double>(yield_kg_per_m));
}

double score_of_whole(std::int64_t whole) { return static_cast<double>(whole) / kSteps; }

GroundField::GroundField(const Waters& waters, Wanted wanted, bool all_known)
    : waters_(waters),
      grid_(waters.grid),
      wanted_(wanted),
      all_known_(all_known),
      patch_cols_((grid_.cols + kSide - 1) / kSide),
      slots_(static_cast<std::size_t>(patch_cols_) *
                 static_cast<std::size_t>((grid_.rows + kSide - 1) / kSide),
             kNotYet) {}

std::size_t GroundField::cells_summed() const {
  return used_ * static_cast<std::size_t>(kSide * kSide);
}

void GroundField::sum_up(int patch_row, int patch_col) const {
  if (used_ % kPatches == 0) {
    const std::size_t size = kPatches * kPatchSums;
    const std::size_t counted = all_known_ ? 0 : size;
    chunks_.push_back({Sums<std::int32_t>(size), Sums<std::int64_t>(size),
                       Sums<std::int32_t>(counted), Sums<std::int32_t>(counted)});
  }
  const std::size_t slot = used_++;
  const int end = std::min(grid_.rows, (patch_row + 1) * kSide);
  std::size_t at = slot % kPatches * kPatchSums;
  for (int row = patch_row * kSide; row < end; ++row) {
    sum_up_row(row, patch_col * kSide, chunks_.back(), at);
    at += kRowSums;
  }
  slots_[static_cast<std::size_t>(patch_row * patch_cols_ + patch_col)] =
      static_cast<std::uint32_t>(slot);
  // Systems that map files by large pages bring whole rows into memory with their cells of a patch.
  walked_over(static_cast<std::size_t>(kSide) * static_cast<std::size_t>(grid_.cols) * kSurveyed);
}

void GroundField::sum_up_row(int row, int first_col, Chunk& chunk, std::size_t at) const {
  const ScoredMaps& maps = waters_.maps;
  std::int32_t barred = 0, unknown = 0, apart_only = 0;
  std::int64_t score = 0;
  const auto put = [&] {
    chunk.barred[at] = barred;
    chunk.score[at] = score;
    if (!all_known_) {
      chunk.unknown[at] = unknown;
      chunk.apart_only[at] = apart_only;
    }
    ++at;
  };
  put();
  for (int col = first_col; col < std::min(grid_.cols, first_col + kSide); ++col) {
    const std::size_t i = grid_.index(col, row);
    const Ground ground = ground_at(waters_.plan, maps, waters_.size, i);
    barred += lies_under(ground, wanted_) ? 0 : 1;
    score += ground == Ground::good ? whole_of(suitability_yield(maps, i)) : 0;
    apart_only += for_apart_only(ground) ? 1 : 0;
    unknown += ground == Ground::property_unknown || for_apart_only(ground) ? 1 : 0;
    put();
  }
}

}  // namespace tidelot
