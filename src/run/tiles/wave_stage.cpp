// SPDX-License-Identifier: Apache-2.0
#include "run/tiles/wave_stage.hpp"

#include <algorithm>
#include <cmath>

#include "run/workers.hpp"
#include "tidelot/criteria/fetch.hpp"

namespace tidelot::run {
namespace {

constexpr double kMetresPerKilometre = 1000.0;
constexpr std::size_t kChunk = std::size_t{1} << 16;  // cells that a worker takes at a time

/// Fetch and mean depth of one direction.
struct Fetches {
  GridVector<float> fetch_m, mean_depth_m;
};

GridVector<float> at_high_water(std::span<const float> depth_low_water, double range_m) {
  GridVector<float> depth(depth_low_water.size());
  std::transform(depth_low_water.begin(), depth_low_water.end(), depth.begin(),
                 [&](float d) { return static_cast<float>(d + range_m); });
  return depth;
}

/// The grid with cells as wide as they truly are.
Grid true_grid(const Area& area) {
  Grid grid = area.layers->grid();
  grid.cell_m /= area.scale;
  return grid;
}

/// Bearings are true; on the grid they turn by its convergence.
void sweep_from(const WaveDirection& direction, const FetchSweep& sweep, const Plan& plan,
                const Area& area, Fetches& out) {
  sweep(direction.from_deg() - area.convergence_deg, plan.waves->open_km * kMetresPerKilometre,
        out.fetch_m, out.mean_depth_m);
}

}  // namespace

std::vector<WaveDirection> wave_directions(const Plan& plan, const Area& area) {
  std::vector<WaveDirection> directions;
  if (!plan.waves || !area.layers->winds()) {
    return directions;
  }
  const WavesPlan& waves = *plan.waves;
  const auto limit =
      std::make_shared<const SeaTable>(limit_winds(waves.form, waves.working_limit_m));
  for (const SectorWind& wind : directions_of(*area.layers->winds(), waves.directions)) {
    directions.emplace_back(wind, waves.form, waves.working_limit_m, limit);
  }
  return directions;
}

double highest_wave(const Plan& plan, const Area& area, std::span<const WaveDirection> directions,
                    std::span<const float> depth_low_water, double shift_m,
                    std::span<const std::size_t> cells) {
  const GridVector<float> depth =
      at_high_water(depth_low_water, plan.depth.tidal_range_m + shift_m);
  const FetchSweep sweep(true_grid(area), depth);
  Fetches all{GridVector<float>(depth.size()), GridVector<float>(depth.size())};
  WaveMaps maps(cells.size());
  const auto of_cells = [&](std::span<const float> values) {
    std::vector<float> out;
    for (const std::size_t cell : cells) {
      out.push_back(values[cell]);
    }
    return out;
  };
  for (const WaveDirection& direction : directions) {
    sweep_from(direction, sweep, plan, area, all);
    direction.add_to(maps, 0, cells.size(), of_cells(all.fetch_m), of_cells(all.mean_depth_m),
                     of_cells(depth));
  }
  double highest = 0.0;
  for (const float height : maps.height_50y_m) {
    highest = std::fmax(highest, static_cast<double>(height));  // NaN on land
  }
  return highest;
}

std::optional<WaveMaps> wave_maps(const Plan& plan, const Area& area,
                                  std::span<const float> depth_low_water, int threads,
                                  const std::atomic<int>* stop_signal) {
  const std::vector<WaveDirection> directions = wave_directions(plan, area);
  if (!plan.waves || !area.layers->winds()) {
    return std::nullopt;
  }
  const GridVector<float> depth = at_high_water(depth_low_water, plan.depth.tidal_range_m);
  const FetchSweep sweep(true_grid(area), depth);
  const auto at_once = static_cast<std::size_t>(workers_for(threads));
  std::vector<Fetches> fetches(std::min(at_once, directions.size()));
  for (Fetches& each : fetches) {
    each = {GridVector<float>(depth.size()), GridVector<float>(depth.size())};
  }
  WaveMaps maps(depth.size());
  for (std::size_t first = 0; first < directions.size(); first += at_once) {
    const std::size_t count = std::min(at_once, directions.size() - first);
    for_each(count, static_cast<int>(count), stop_signal, [&](std::size_t item, int) {
      sweep_from(directions[first + item], sweep, plan, area, fetches[item]);
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
