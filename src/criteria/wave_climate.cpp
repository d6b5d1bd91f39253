// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/wave_climate.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace tidelot {
namespace {

/// Evenly spaced nodes of a logarithm.
struct Axis {
  double low, high;
  int nodes;
  [[nodiscard]] double step() const { return (high - low) / (nodes - 1); }
  [[nodiscard]] double at(int node) const { return std::exp(low + step() * node); }
};

const Axis kFetch{0.0, std::log(1e6), 160};
const Axis kDepth{std::log(0.1), std::log(300.0), 96};
constexpr double kFloor = 1e-9;  // stands for no waves under a logarithm
constexpr double kStormiest = 100.0;

/// Where a value lies between two nodes.
struct Place {
  int node;
  double share;
};

Place place_on(const Axis& axis, double value) {
  const double x = std::clamp((std::log(value) - axis.low) / axis.step(), 0.0, axis.nodes - 1.0);
  const int node = std::min(static_cast<int>(x), axis.nodes - 2);
  return {node, x - node};
}

double between(const std::vector<double>& values, Place fetch, Place depth) {
  const auto at = [&](int f, int d) {
    return values[static_cast<std::size_t>(f) * static_cast<std::size_t>(kDepth.nodes) +
                  static_cast<std::size_t>(d)];
  };
  const double left = at(fetch.node, depth.node) * (1.0 - depth.share) +
                      at(fetch.node, depth.node + 1) * depth.share;
  const double right = at(fetch.node + 1, depth.node) * (1.0 - depth.share) +
                       at(fetch.node + 1, depth.node + 1) * depth.share;
  return std::exp(left * (1.0 - fetch.share) + right * fetch.share);
}

void raise_to(float& kept, double value) { kept = std::max(kept, static_cast<float>(value)); }

}  // namespace

SeaTable::SeaTable(const Form& form) {
  for (int f = 0; f < kFetch.nodes; ++f) {
    for (int d = 0; d < kDepth.nodes; ++d) {
      const SeaState sea = form(kFetch.at(f), kDepth.at(d));
      log_height_.push_back(std::log(std::max(sea.height_m, kFloor)));
      log_period_.push_back(std::log(std::max(sea.period_s, kFloor)));
    }
  }
}

SeaState SeaTable::operator()(double fetch_m, double depth_m) const {
  const Place fetch = place_on(kFetch, fetch_m);
  const Place depth = place_on(kDepth, depth_m);
  return {between(log_height_, fetch, depth), between(log_period_, fetch, depth)};
}

SeaState sea_of(WaveForm form, double wind_10m, double fetch_m, double depth_m) {
  return form == WaveForm::shore_protection
             ? spm_shallow(spm_adjusted_wind(wind_10m), fetch_m, depth_m)
             : young_verhagen(wind_10m, fetch_m, depth_m);
}

double wind_for_height(WaveForm form, double height_m, double fetch_m, double depth_m) {
  double low = 0.0;
  double high = kStormiest;
  if (sea_of(form, high, fetch_m, depth_m).height_m < height_m) {
    return std::numeric_limits<double>::infinity();
  }
  for (int step = 0; step < 50; ++step) {
    const double middle = 0.5 * (low + high);
    (sea_of(form, middle, fetch_m, depth_m).height_m < height_m ? low : high) = middle;
  }
  return high;
}

SeaTable limit_winds(WaveForm form, double height_m) {
  return SeaTable([&](double fetch_m, double depth_m) {
    // beyond the stormiest wind no sea is that high: a speed that never blows
    return SeaState{std::min(wind_for_height(form, height_m, fetch_m, depth_m), 1e3), 1.0};
  });
}

WaveMaps::WaveMaps(std::size_t cells)
    : height_50y_m(cells, std::numeric_limits<float>::quiet_NaN()),
      period_50y_s(height_50y_m),
      height_1y_m(height_50y_m),
      share_above(height_50y_m) {}

PlaceWaves place_waves(const WaveMaps& maps, std::size_t cell, double depth_low_water_m,
                       const Plan& plan) {
  const double tide = plan.depth.tidal_range_m;
  const double depth = depth_low_water_m + tide;
  const double line = plan.farm.line_depth_m + (plan.farm.fixed_line ? tide : 0.0);
  const SeaState sea{maps.height_50y_m[cell], maps.period_50y_s[cell]};
  return {sea.height_m,
          sea.period_s,
          maps.height_1y_m[cell],
          maps.share_above[cell],
          orbital_speed(sea, depth, std::min(line, depth)),
          orbital_speed(sea, depth, depth)};
}

WaveDirection::WaveDirection(const SectorWind& wind, WaveForm form, double working_limit_m,
                             std::shared_ptr<const SeaTable> limit)
    : wind_(wind),
      working_limit_m_(working_limit_m),
      once_a_year_([&](double f, double d) { return sea_of(form, wind.speed_1y, f, d); }),
      once_in_fifty_([&](double f, double d) { return sea_of(form, wind.speed_50y, f, d); }),
      limit_wind_(std::move(limit)) {}

void WaveDirection::add_to(WaveMaps& maps, std::size_t first, std::size_t end,
                           std::span<const float> fetch_m, std::span<const float> mean_depth_m,
                           std::span<const float> depth_high_m) const {
  for (std::size_t i = first; i < end; ++i) {
    if (!(fetch_m[i] > 0.0F)) {
      continue;  // land
    }
    if (std::isnan(maps.height_50y_m[i])) {
      maps.height_50y_m[i] = maps.period_50y_s[i] = 0.0F;
      maps.height_1y_m[i] = maps.share_above[i] = 0.0F;
    }
    // Where no depth is known the water is taken as deep: the careful reading.
    const double depth = std::isnan(mean_depth_m[i]) ? 300.0 : mean_depth_m[i];
    const double here = std::isnan(depth_high_m[i]) ? 300.0 : depth_high_m[i];
    const SeaState storm = once_in_fifty_(fetch_m[i], depth);
    const double height = std::min(storm.height_m, depth_limited_height_m(here));
    if (height > maps.height_50y_m[i]) {
      maps.height_50y_m[i] = static_cast<float>(height);
      maps.period_50y_s[i] = static_cast<float>(storm.period_s);
    }
    raise_to(maps.height_1y_m[i],
             std::min(once_a_year_(fetch_m[i], depth).height_m, depth_limited_height_m(here)));
    if (depth_limited_height_m(here) < working_limit_m_) {
      continue;  // too shallow for waves of that height
    }
    const double wind = (*limit_wind_)(fetch_m[i], depth).height_m;
    maps.share_above[i] += static_cast<float>(wind_.share * wind_.speeds.above(wind));
  }
}

std::vector<SectorWind> directions_of(const WindRose& rose, int fewest) {
  const auto sectors = static_cast<int>(rose.sectors.size());
  const int parts = std::max(1, (fewest + sectors - 1) / sectors);
  const double width = 360.0 / sectors;
  std::vector<SectorWind> directions;
  for (const WindSector& sector : rose.sectors) {
    SectorWind wind = sector_wind(sector);
    wind.share /= parts;
    for (int part = 0; part < parts; ++part) {
      wind.from_deg = sector.from_deg + width * ((part + 0.5) / parts - 0.5);
      directions.push_back(wind);
    }
  }
  return directions;
}

}  // namespace tidelot
