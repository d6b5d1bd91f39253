// SPDX-License-Identifier: Apache-2.0
#include "run/tiles/map_files.hpp"

#include <fmt/format.h>

#include <bit>
#include <cmath>

#include "tidelot/core/grid_vector.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/core/version.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason.hpp"
#include "tidelot/criteria/reason_codes.hpp"

namespace tidelot::run {
namespace {

constexpr int kBits = 32;
constexpr std::size_t kLookedAt = 13;  ///< bytes of a cell that are looked at to count it

MapBand band(std::string description, std::string unit, std::span<const float> values) {
  return {std::move(description), std::move(unit), values};
}

/// What the crop gives: rounded. What decides (depths, scores, waves) stands as it was compared.
MapBand grown(std::string description, std::string unit, std::span<const float> values) {
  MapBand out = band(std::move(description), std::move(unit), values);
  out.digits = kModelDigits;
  return out;
}

std::vector<MapBand> suitability_bands(const Maps& maps, const Plan& plan) {
  const std::string how =
      plan.combine == Combine::minimum ? "lowest criterion" : "weighted geometric mean";
  std::vector<MapBand> bands{
      band("suitability, 0 to 1; 0 where closed (" + how + ")", "1", maps.suitability)};
  if (!maps.lowest.empty()) {
    bands.push_back(band("lowest criterion, 0 to 1; 0 where closed", "1", maps.lowest));
  }
  return bands;
}

std::vector<std::pair<std::string, std::string>> common_metadata(const Plan& plan) {
  return {{"TITLE", plan.title},
          {"PROGRAM", fmt::format("tidelot {}", version())},
          {"VERTICAL_DATUM", plan.depth.datum},
          {"CAUTION", "planning use - not for navigation - not a survey"}};
}

MapFile closed_map(const Maps& maps, const Plan& plan) {
  MapFile file{"closed.tif",
               {{"closing rules, one bit each; 0: nothing closes", "",
                 std::span<const std::uint32_t>(maps.closed)}},
               static_cast<double>(kClosedNotWater),
               {},
               common_metadata(plan)};
  const auto names = closed_bit_names(plan);
  for (std::size_t bit = 0; bit < names.size(); ++bit) {
    if (!names[bit].empty()) {
      file.metadata.emplace_back(fmt::format("BIT_{:02}", bit), names[bit]);
    }
  }
  file.metadata.emplace_back(fmt::format("CODE_{}", kClosedNotWater),
                             "land, or outside the outline (no data)");
  file.metadata.emplace_back(fmt::format("CODE_{}", kClosedUnknown), "not known");
  return file;
}

/// Which of the plan's files of depths each cell's depth comes from.
MapFile depth_source_map(const Maps& maps, const Plan& plan) {
  MapFile file{"depth_source.tif",
               {{"where the depth comes from; of a mixture the more trusted", "",
                 std::span<const std::uint8_t>(maps.depth_source)}},
               static_cast<double>(kNoSource),
               {},
               common_metadata(plan)};
  for (const DepthSource& source : plan.depth.sources()) {
    file.categories.push_back(source.title());
  }
  return file;
}

/// Quantiles after the best estimate.
void add_bands(std::vector<MapBand>& bands, const SpreadBands& spread, const std::string& what,
               const std::string& unit) {
  const auto add = [&](const std::string& which, std::span<const float> values) {
    bands.push_back(grown(which + ": " + what, unit, values));
  };
  add("P10, which one member in ten is below", spread.p10);
  add("P90, which one member in ten is above", spread.p90);
  add("P50, which half of the members are below", spread.p50);
}

MapFile confidence_map(const SpreadMaps& spread, const Plan& plan) {
  return {"confidence.tif",
          {band(fmt::format("share of the {} members in which the cell is open and its suitability "
                            "at least {}",
                            plan.uncertainty.draws, shortest(plan.sites.min_suitability)),
                "1", spread.confidence)},
          -9999.0,
          {},
          common_metadata(plan)};
}

MapFile wave_map(const WaveMaps& waves, const Plan& plan) {
  MapFile file{
      "waves.tif",
      {band("significant wave height exceeded once in fifty years", "m", waves.height_50y_m),
       band("wave period with it", "s", waves.period_50y_s),
       band("significant wave height exceeded once a year", "m", waves.height_1y_m),
       band(fmt::format("share of time above the working limit of {} m",
                        shortest(plan.waves->working_limit_m)),
            "1", waves.share_above)},
      -9999.0,
      {},
      common_metadata(plan)};
  return file;
}

bool water(float depth) { return depth > 0.0F; }

void count_cell(const Maps& maps, std::size_t i, RunCounts& counts) {
  const std::uint8_t code = maps.reason[i];
  ++counts.by_reason[code];
  if (code == reason::kOutside) {
    return;
  }
  ++counts.cells;
  counts.land += code == reason::kLand ? 1 : 0;
  if (water(maps.depth_low_water[i])) {
    ++counts.water;
    const std::uint32_t bits = maps.closed[i] == kClosedUnknown ? 0U : maps.closed[i];
    counts.closed += bits != 0 ? 1 : 0;
    for (int bit = 0; bit < kBits; ++bit) {
      counts.closed_by_bit[static_cast<std::size_t>(bit)] += (bits >> bit) & 1U;
    }
    if (std::has_single_bit(bits)) {
      ++counts.closed_only_by_bit[static_cast<std::size_t>(std::countr_zero(bits))];
    }
    counts.open += bits == 0 && !std::isnan(maps.suitability[i]) ? 1 : 0;
  }
  const bool scored = !std::isnan(maps.suitability[i]);
  counts.unknown += !scored && code != reason::kLand ? 1 : 0;
}

}  // namespace

std::vector<MapFile> map_files(const Maps& maps, const Plan& plan) {
  const auto common = common_metadata(plan);
  constexpr double kNoData = -9999.0;
  std::vector<MapFile> files{
      {"suitability.tif", suitability_bands(maps, plan), kNoData, {}, common},
      {"yield.tif",
       {grown("best estimate: fresh yield of the season, net of stocking, per metre of longline",
              "kg/m", maps.yield_kg_per_m)},
       kNoData,
       {},
       common},
      {"nitrogen.tif",
       {grown("best estimate: nitrogen carried off by the harvests, net of stocking, per metre of "
              "longline and season",
              "g/m", maps.nitrogen_g_per_m)},
       kNoData,
       {},
       common},
      {"season.tif",
       {band("first outplant day", "day of year", maps.outplant),
        band("last haul day", "day of year", maps.last_haul), band("harvests", "1", maps.harvests)},
       kNoData,
       {},
       common},
      {"depth_low_water.tif",
       {band("depth at low water, positive down", "m", maps.depth_low_water)},
       kNoData,
       {},
       common},
      {"coverage.tif",
       {band(
           "least share, by weight and over the layers, of the neighbours around the cell's centre "
           "that have data",
           "1", maps.coverage)},
       kNoData,
       {},
       common},
      closed_map(maps, plan),
      {"reason.tif",
       {{"what holds the cell back most", "", std::span<const std::uint8_t>(maps.reason)}},
       static_cast<double>(reason::kOutside),
       reason_names(plan),
       common},
  };
  if (maps.spread) {
    add_bands(files[1].bands, maps.spread->yield_kg_per_m, "fresh yield", "kg/m");
    add_bands(files[2].bands, maps.spread->nitrogen_g_per_m, "nitrogen carried off", "g/m");
    files.push_back(confidence_map(*maps.spread, plan));
  }
  if (maps.waves) {
    files.push_back(wave_map(*maps.waves, plan));
  }
  if (!maps.depth_source.empty()) {
    files.push_back(depth_source_map(maps, plan));
  }
  for (MapFile& file : files) {
    file.codec = plan.codec;
  }
  return files;
}

RunCounts count(const Maps& maps, const Grid& grid, double areal_scale) {
  RunCounts counts;
  counts.closed_by_bit.assign(kBits, 0);
  counts.closed_only_by_bit.assign(kBits, 0);
  counts.by_reason.assign(256, 0);
  for (int row = 0; row < grid.rows; ++row) {
    for (int col = 0; col < grid.cols; ++col) {
      count_cell(maps, grid.index(col, row), counts);
    }
    walked_over(static_cast<std::size_t>(grid.cols) * kLookedAt);
  }
  const double cell_ha = grid.cell_m * grid.cell_m / areal_scale / 1e4;
  counts.water_ha = static_cast<double>(counts.water) * cell_ha;
  counts.closed_ha = static_cast<double>(counts.closed) * cell_ha;
  counts.open_ha = static_cast<double>(counts.open) * cell_ha;
  return counts;
}

}  // namespace tidelot::run
