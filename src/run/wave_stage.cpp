// SPDX-License-Identifier: Apache-2.0
#include "run/wave_stage.hpp"

#include <algorithm>

#include "run/workers.hpp"
#include "tidelot/criteria/fetch.hpp"

namespace tidelot::run {
namespace {

constexpr double kMetresPerKilometre = 1000.0;
constexpr std::size_t kChunk = std::size_t{1} << 16;  // cells that a worker takes at a time

/// Fetch and mean depth of one direction.
struct Fetches {
  std::vector<float> fetch_m, mean_depth_m;
};

std::vector<float> at_high_water(std::span<const float> depth_low_water, double range_m) {
  std::vector<float> depth(depth_low_water.size());
  std::transform(depth_low_water.begin(), depth_low_water.end(), depth.begin(),
                 [&](float d) { return static_cast<float>(d + range_m); });
  return depth;
}

}  // namespace

std::optional<WaveMaps> wave_maps(const Plan& plan, const Area& area,
                                  std::span<const float> depth_low_water, int threads,
                                  const std::atomic<int>* stop_signal) {
  if (!plan.waves || !area.layers->winds()) {
    return std::nullopt;
  }
  const WavesPlan& waves = *plan.waves;
  const std::vector<float> depth = at_high_water(depth_low_water, plan.depth.tidal_range_m);
  Grid grid = area.layers->grid();
  grid.cell_m /= area.scale;  // true metres
  const FetchSweep sweep(grid, depth);
  const auto limit =
      std::make_shared<const SeaTable>(limit_winds(waves.form, waves.working_limit_m));
  std::vector<WaveDirection> directions;
  for (const SectorWind& wind : directions_of(*area.layers->winds(), waves.directions)) {
    directions.emplace_back(wind, waves.form, waves.working_limit_m, limit);
  }
  const auto at_once = static_cast<std::size_t>(workers_for(threads));
  std::vector<Fetches> fetches(std::min(at_once, directions.size()));
  for (Fetches& each : fetches) {
    each = {std::vector<float>(depth.size()), std::vector<float>(depth.size())};
  }
  WaveMaps maps(depth.size());
  for (std::size_t first = 0; first < directions.size(); first += at_once) {
    const std::size_t count = std::min(at_once, directions.size() - first);
    for_each(count, static_cast<int>(count), stop_signal, [&](std::size_t item, int) {
      // Bearings are true; on the grid they turn by its convergence.
      sweep(directions[first + item].from_deg() - area.convergence_deg,
            waves.open_km * kMetresPerKilometre, fetches[item].fetch_m, fetches[item].mean_depth_m);
    });
    for_each((depth.size() + kChunk - 1) / kChunk, static_cast<int>(at_once), stop_signal,
             [&](std::size_t chunk, int) {
               const std::size_t end = std::min(depth.size(), (chunk + 1) * kChunk);
               for (std::size_t item = 0; item < count; ++item) {
                 directions[first + item].add_to(maps, chunk * kChunk, end, fetches[item].fetch_m,
                                                 fetches[item].mean_depth_m, depth);
               }
             });
  }
  return maps;
}

}  // namespace tidelot::run
