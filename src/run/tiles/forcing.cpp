// SPDX-License-Identifier: Apache-2.0
#include "run/tiles/forcing.hpp"

#include <algorithm>
#include <cmath>

#include "tidelot/core/error.hpp"
#include "tidelot/criteria/reason.hpp"
#include "tidelot/season/sun.hpp"

namespace tidelot::run {
namespace {

CropModel constants_of(const Plan& plan) {
  try {
    return crop_model(plan.crop, plan.boundary_layer);
  } catch (const std::invalid_argument& problem) {
    throw Error(Fault::plan, plan.path.filename().string() + ": crop: " + problem.what());
  }
}

std::array<double, kDaysPerYear> daily_sunshine(const SunPlan& sun, const MonthlyNodes& nodes) {
  std::array<double, kDaysPerYear> daily{};
  if (const auto* share = std::get_if<double>(&sun.source)) {
    daily.fill(*share);
  } else if (const auto* monthly = std::get_if<Monthly>(&sun.source)) {
    const auto mid = nodes(*monthly);
    for (int day = 1; day <= kDaysPerYear; ++day) {
      daily[static_cast<std::size_t>(day - 1)] = std::clamp(daily_value(mid, day), 0.0, 1.0);
    }
  }
  return daily;
}

/// Gives the code to the cells in which some value is not known; those that have one keep it.
void mark_unknown(const std::vector<float>& values, std::uint8_t code,
                  std::vector<std::uint8_t>& codes) {
  for (std::size_t i = 0; i < codes.size(); ++i) {
    codes[i] = codes[i] == 0 && std::isnan(values[i]) ? code : codes[i];
  }
}

void mark_unknown(const MonthlyTile& tile, std::uint8_t code, std::vector<std::uint8_t>& codes) {
  for (const std::vector<float>& day : tile.day) {
    mark_unknown(day, code, codes);
  }
  const std::size_t months = !tile.day.empty() ? 0 : tile.steady ? 1 : kMonths;
  for (std::size_t month = 0; month < months; ++month) {
    mark_unknown(tile.month[month], code, codes);
  }
}

/// A cell's nodes in double.
class WideNodes {
 public:
  WideNodes(const NodeArray& nodes, std::size_t cells, std::size_t cell) {
    const CellNodes at(nodes, cells, cell);
    const std::span<const float> narrow = at;
    count_ = narrow.size();
    std::copy(narrow.begin(), narrow.end(), values_.begin());
  }
  operator std::span<const double>() const { return {values_.data(), count_}; }

 private:
  std::array<double, kDaysPerYear> values_;  // only count_ are set
  std::size_t count_ = 0;
};

using DailyMean = double (*)(std::span<const double>, DayOfYear, DayOfYear);

/// Mean of a property over the season, over the year where there is none.
float season_mean(const NodeArray& property, std::size_t cells, std::size_t cell,
                  const SeasonWindow& window, DailyMean mean_over) {
  if (property.steady) {
    return property.values[cell];
  }
  const bool grows = window.state == SeasonState::grows;
  return static_cast<float>(mean_over(WideNodes(property, cells, cell), grows ? window.outplant : 1,
                                      grows ? window.last_haul : kDaysPerYear));
}

}  // namespace

SeasonSetup::SeasonSetup(const Plan& plan)
    : rules_(window_rules(plan)),
      constants_(constants_of(plan)),
      limits_(limit_thresholds(plan.crop)),
      husbandry_(husbandry_of(plan)),
      nodes_(plan.season.daily),
      sunshine_(daily_sunshine(plan.sun, nodes_)) {}

double SeasonSetup::radiation_mj(double latitude_deg, DayOfYear day) const {
  return global_radiation_mj(sunshine_[static_cast<std::size_t>(wrapped_day(day) - 1)],
                             sun_of_day(latitude_deg, day).extraterrestrial_mj);
}

std::vector<std::uint8_t> unknown_properties(const TileLayers& tile, std::size_t cells) {
  std::vector<std::uint8_t> codes(cells, 0);
  mark_unknown(tile.temperature, reason::kTemperatureUnknown, codes);
  mark_unknown(tile.salinity, reason::kSalinityUnknown, codes);
  mark_unknown(tile.attenuation, reason::kLightUnknown, codes);
  if (!tile.radiation.empty()) {
    mark_unknown(tile.radiation, reason::kLightUnknown, codes);
  }
  mark_unknown(tile.nitrogen, reason::kNitrogenUnknown, codes);
  mark_unknown(tile.current, reason::kCurrentUnknown, codes);
  return codes;
}

NodeArray nodes_of(const MonthlyTile& tile, std::span<const std::size_t> cells,
                   const MonthlyNodes& nodes) {
  NodeArray out;
  out.steady = tile.steady;
  out.daily = !tile.day.empty();
  for (const std::vector<float>& day : tile.day) {
    for (const std::size_t cell : cells) {
      out.values.push_back(day[cell]);
    }
  }
  if (out.daily) {
    return out;
  }
  if (tile.steady) {
    for (const std::size_t cell : cells) {
      out.values.push_back(tile.month[0][cell]);
    }
    return out;
  }
  const std::size_t n = cells.size();
  out.values.resize(n * kMonths);
  std::vector<double> sum(n);
  for (std::size_t node = 0; node < kMonths; ++node) {
    std::fill(sum.begin(), sum.end(), 0.0);
    for (std::size_t month = 0; month < kMonths; ++month) {
      const double weight = nodes.matrix()[node][month];
      if (weight != 0.0) {
        for (std::size_t i = 0; i < n; ++i) {
          sum[i] += weight * static_cast<double>(tile.month[month][cells[i]]);
        }
      }
    }
    std::transform(sum.begin(), sum.end(),
                   out.values.begin() + static_cast<std::ptrdiff_t>(node * n),
                   [](double value) { return static_cast<float>(value); });
  }
  return out;
}

CellNodes::CellNodes(const NodeArray& nodes, std::size_t cells, std::size_t cell)
    : count_(nodes.daily ? std::size_t{kDaysPerYear} : std::size_t{kMonths}) {
  for (std::size_t row = 0; row < count_; ++row) {
    values_[row] = nodes.values[(nodes.steady ? 0 : row * cells) + cell];
  }
}

CellNodes nodes_at(const NodeArray& nodes, std::size_t cells, std::size_t cell) {
  return {nodes, cells, cell};
}

std::vector<SeasonWindow> put_windows(KernelForcing& kernel, const SeasonSetup& setup) {
  std::vector<SeasonWindow> windows;
  kernel.outplant.clear();
  kernel.last_haul.clear();
  for (std::size_t i = 0; i < kernel.cells; ++i) {
    const SeasonWindow& window = windows.emplace_back(
        season_window(nodes_at(kernel.temperature, kernel.cells, i), setup.rules()));
    const bool grows = window.state == SeasonState::grows;
    kernel.outplant.push_back(grows ? window.outplant : 1);
    kernel.last_haul.push_back(grows ? window.last_haul : 0);
  }
  return windows;
}

void put_sun(KernelForcing& kernel, std::span<const float> latitudes, const SeasonSetup& setup) {
  const auto [low, high] = std::minmax_element(latitudes.begin(), latitudes.end());
  const std::array<double, 2> ends{*low, *high};
  for (std::size_t end = 0; end < 2; ++end) {
    for (int day = 1; day <= kDaysPerYear; ++day) {
      kernel.sun_radiation_mj[end].push_back(
          static_cast<float>(setup.radiation_mj(ends[end], day)));
      kernel.sun_day_length_h[end].push_back(
          static_cast<float>(sun_of_day(ends[end], day).day_length_h));
    }
    const auto change = day_length_changes(ends[end]);
    kernel.sun_day_length_change[end].assign(change.begin(), change.end());
  }
  const float span = *high - *low;
  for (const float latitude : latitudes) {
    kernel.latitude_weight.push_back(span > 0.0F ? (latitude - *low) / span : 0.0F);
  }
}

TileForcing tile_forcing(const TileLayers& layers, std::span<const std::size_t> cells,
                         std::span<const float> latitudes, const SeasonSetup& setup) {
  TileForcing out;
  KernelForcing& kernel = out.kernel;
  const std::size_t n = cells.size();
  kernel.cells = n;
  kernel.temperature = nodes_of(layers.temperature, cells, setup.nodes());
  kernel.salinity = nodes_of(layers.salinity, cells, setup.nodes());
  kernel.attenuation = nodes_of(layers.attenuation, cells, setup.nodes());
  kernel.nitrogen = nodes_of(layers.nitrogen, cells, setup.nodes());
  if (!layers.ammonium.empty()) {
    kernel.ammonium = nodes_of(layers.ammonium, cells, setup.nodes());
  }
  kernel.current = nodes_of(layers.current, cells, setup.nodes());
  if (!layers.radiation.empty()) {
    kernel.radiation = nodes_of(layers.radiation, cells, setup.nodes());
  }
  if (n > 0) {
    put_sun(kernel, latitudes, setup);
  }
  out.windows = put_windows(kernel, setup);
  for (std::size_t i = 0; i < n; ++i) {
    const SeasonWindow& window = out.windows[i];
    out.season_current.push_back(season_mean(kernel.current, n, i, window, clamped_daily_mean));
    out.season_temperature.push_back(season_mean(kernel.temperature, n, i, window, daily_mean));
    out.season_salinity.push_back(season_mean(kernel.salinity, n, i, window, clamped_daily_mean));
  }
  return out;
}

TileForcing cell_forcing(const TileLayers& layers, double latitude_deg, const SeasonSetup& setup) {
  const std::array<std::size_t, 1> only{0};
  const std::array<float, 1> latitude{static_cast<float>(latitude_deg)};
  return tile_forcing(layers, only, latitude, setup);
}

std::vector<DayForcing> day_forcing(const TileForcing& forcing, std::size_t cell,
                                    double latitude_deg, const SeasonSetup& setup) {
  const KernelForcing& kernel = forcing.kernel;
  const auto positive = [&](const NodeArray& nodes, int day) {
    return clamped_daily(WideNodes(nodes, kernel.cells, cell), day);
  };
  const WideNodes temperature(kernel.temperature, kernel.cells, cell);
  const auto change = day_length_changes(latitude_deg);
  std::vector<DayForcing> days;
  for (int day = kernel.outplant[cell]; day <= kernel.last_haul[cell]; ++day) {
    const double radiation = kernel.radiation.values.empty() ? setup.radiation_mj(latitude_deg, day)
                                                             : positive(kernel.radiation, day);
    days.push_back({daily_value(temperature, day), positive(kernel.salinity, day),
                    positive(kernel.attenuation, day), positive(kernel.nitrogen, day),
                    positive(kernel.current, day), par_below_surface(radiation),
                    sun_of_day(latitude_deg, day).day_length_h,
                    change[static_cast<std::size_t>(wrapped_day(day) - 1)]});
    if (!kernel.ammonium.values.empty()) {
      days.back().nh4_share = ammonium_share(positive(kernel.ammonium, day), days.back().nitrogen);
    }
  }
  return days;
}

}  // namespace tidelot::run
