// SPDX-License-Identifier: Apache-2.0
#include "sites/field.hpp"

#include <cmath>

#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason.hpp"

namespace tidelot {
namespace {

constexpr double kSteps = 1048576.0;  // 2^20

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

/// Sums from the west of value(cell index), cols + 1 a row.
template <typename T, typename Value>
std::vector<T> sums_from_west(const Grid& grid, Value value) {
  std::vector<T> sums;
  sums.reserve(static_cast<std::size_t>(grid.rows) * (static_cast<std::size_t>(grid.cols) + 1));
  for (int row = 0; row < grid.rows; ++row) {
    T sum{};
    sums.push_back(sum);
    for (int col = 0; col < grid.cols; ++col) {
      sum = static_cast<T>(sum + value(grid.index(col, row)));
      sums.push_back(sum);
    }
  }
  return sums;
}

}  // namespace

Ground ground_at(const Plan& plan, const ScoredMaps& maps, const SiteSize& size, std::size_t i) {
  if (maps.closed[i] == kClosedUnknown) {
    return std::isnan(maps.depth_low_water[i]) ? Ground::depth_unknown : Ground::rule_unknown;
  }
  if (maps.closed[i] == kClosedNotWater || std::isnan(maps.depth_low_water[i])) {
    return maps.reason[i] == reason::kOutside ? Ground::outside : Ground::land;
  }
  if (maps.closed[i] != 0) {
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

GroundMap ground_of(const Plan& plan, const ScoredMaps& maps, const SiteSize& size) {
  GroundMap map;
  map.cells.reserve(maps.closed.size());
  for (std::size_t i = 0; i < maps.closed.size(); ++i) {
    map.cells.push_back(ground_at(plan, maps, size, i));
    add(map.cells.back(), !std::isnan(maps.suitability[i]), map.count);
  }
  return map;
}

std::int64_t whole_score(float suitability, float yield_kg_per_m) {
  const double score = static_cast<double>(suitability) * static_cast<double>(yield_kg_per_m);
  return std::isnan(score) ? 0 : std::llround(score * kSteps);
}

double score_of_whole(std::int64_t whole) { return static_cast<double>(whole) / kSteps; }

GroundField::GroundField(const Grid& grid, const ScoredMaps& maps, const GroundMap& ground,
                         Wanted wanted)
    : grid_(grid), wanted_(wanted), cols1_(grid.cols + 1) {
  barred_ = sums_from_west<std::int32_t>(
      grid, [&](std::size_t i) { return !lies_under(ground.cells[i], wanted); });
  score_ = sums_from_west<std::int64_t>(grid, [&](std::size_t i) {
    return ground.cells[i] == Ground::good
               ? whole_score(maps.suitability[i], maps.yield_kg_per_m[i])
               : 0;
  });
  if (ground.count.unknown > 0) {
    unknown_ = sums_from_west<std::int32_t>(grid, [&](std::size_t i) {
      return ground.cells[i] == Ground::property_unknown || for_apart_only(ground.cells[i]);
    });
    apart_only_ = sums_from_west<std::int32_t>(
        grid, [&](std::size_t i) { return for_apart_only(ground.cells[i]); });
  }
}

}  // namespace tidelot
