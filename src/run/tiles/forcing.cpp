// SPDX-License-Identifier: Apache-2.0
#include "run/tiles/forcing.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "tidelot/core/error.hpp"
#include "tidelot/criteria/reason_codes.hpp"

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

/// Adds to each cell's count of values that are not known. No branch, so that it goes by vectors.
void count_unknown(const std::vector<float>& values, std::vector<std::uint32_t>& unknown) {
  for (std::size_t i = 0; i < unknown.size(); ++i) {
    unknown[i] += values[i] != values[i] ? 1U : 0U;
  }
}

/// Gives the code to the cells in which some value is not known; those that have one keep it.
void mark_unknown(const MonthlyTile& tile, std::uint8_t code, std::vector<std::uint8_t>& codes) {
  std::vector<std::uint32_t> unknown(codes.size(), 0);
  for (const std::vector<float>& day : tile.day) {
    count_unknown(day, unknown);
  }
  const std::size_t months = !tile.day.empty() ? 0 : tile.steady ? 1 : kMonths;
  for (std::size_t month = 0; month < months; ++month) {
    count_unknown(tile.month[month], unknown);
  }
  for (std::size_t i = 0; i < codes.size(); ++i) {
    codes[i] = codes[i] == 0 && unknown[i] > 0 ? code : codes[i];
  }
}

/// The nodes that a matrix makes of monthly means, cell by cell; all cells of a month lie together.
std::vector<float> nodes_through(const std::vector<float>& means, std::size_t cells,
                                 const MonthlyNodes::Matrix& matrix) {
  std::vector<float> out;
  out.reserve(means.size());
  std::vector<double> sum(cells);
  for (const auto& weights : matrix) {
    std::fill(sum.begin(), sum.end(), 0.0);
    for (std::size_t month = 0; month < kMonths; ++month) {
      for (std::size_t i = 0; i < cells; ++i) {
        sum[i] += weights[month] * static_cast<double>(means[month * cells + i]);
      }
    }
    std::transform(sum.begin(), sum.end(), std::back_inserter(out),
                   [](double value) { return static_cast<float>(value); });
  }
  return out;
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

/// May a day's value be below 0?
enum class Sign { either, amount };

/// What a property's mean is taken over: the season, the year where there is none.
struct Days {
  DayOfYear first, last;
  friend bool operator==(const Days&, const Days&) = default;
};

Days days_of(const SeasonWindow& window) {
  return window.state == SeasonState::grows ? Days{window.outplant, window.last_haul}
                                            : Days{1, kDaysPerYear};
}

float mean_in(const NodeArray& property, std::size_t cells, std::size_t cell, Days days,
              Sign sign) {
  const WideNodes nodes(property, cells, cell);
  return static_cast<float>(sign == Sign::amount ? clamped_daily_mean(nodes, days.first, days.last)
                                                 : daily_mean(nodes, days.first, days.last));
}

/// The same of twelve nodes in the cells from first to last, which share their days: one sum for
/// all, but where an amount's nodes are below 0.
void add_means(const NodeArray& property, std::size_t cells, std::size_t first, std::size_t last,
               Days days, Sign sign, std::vector<float>& out) {
  const std::array<double, kMonths> weights = mean_weights(days.first, days.last);
  std::vector<double> sum(last - first, 0.0);
  std::vector<std::uint32_t> below(last - first, 0);
  for (std::size_t month = 0; month < kMonths; ++month) {
    const float* const nodes = &property.values[month * cells + first];
    for (std::size_t i = 0; i < sum.size(); ++i) {
      sum[i] += weights[month] * static_cast<double>(nodes[i]);
      below[i] |= nodes[i] >= 0.0F ? 0U : 1U;
    }
  }
  for (std::size_t i = 0; i < sum.size(); ++i) {
    const bool linear = sign == Sign::either || below[i] == 0;
    out.push_back(linear ? static_cast<float>(sum[i])
                         : mean_in(property, cells, first + i, days, sign));
  }
}

/// A property's mean in each cell over its days.
std::vector<float> season_means(const NodeArray& property, std::span<const SeasonWindow> windows,
                                Sign sign) {
  const std::size_t cells = windows.size();
  if (property.steady) {
    return {property.values.begin(), property.values.begin() + static_cast<std::ptrdiff_t>(cells)};
  }
  std::vector<float> out;
  out.reserve(cells);
  std::size_t first = 0;
  while (first < cells) {
    const Days days = days_of(windows[first]);
    std::size_t last = first + 1;
    while (last < cells && days_of(windows[last]) == days) {
      ++last;
    }
    if (property.daily) {
      for (std::size_t i = first; i < last; ++i) {
        out.push_back(mean_in(property, cells, i, days, sign));
      }
    } else {
      add_means(property, cells, first, last, days, sign, out);
    }
    first = last;
  }
  return out;
}

}  // namespace

SeasonSetup::SeasonSetup(const Plan& plan)
    : rules_(window_rules(plan)),
      constants_(constants_of(plan)),
      limits_(limit_thresholds(plan.crop)),
      husbandry_(husbandry_of(plan)),
      nodes_(plan.season.daily),
      sunshine_(daily_sunshine(plan.sun, nodes_)) {}

double SeasonSetup::radiation_mj(const SunDay& sun, DayOfYear day) const {
  return global_radiation_mj(sunshine_[static_cast<std::size_t>(wrapped_day(day) - 1)],
                             sun.extraterrestrial_mj);
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
  out.values.reserve(cells.size() * kMonths);
  for (const std::vector<float>& month : tile.month) {
    for (const std::size_t cell : cells) {
      out.values.push_back(month[cell]);
    }
  }
  if (!nodes.are_means()) {
    out.values = nodes_through(out.values, cells.size(), nodes.matrix());
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
    const SunYear sun = sun_of_year(ends[end]);
    const auto change = day_length_changes(sun);
    for (int day = 1; day <= kDaysPerYear; ++day) {
      const SunDay& today = sun[static_cast<std::size_t>(day - 1)];
      kernel.sun_radiation_mj[end].push_back(static_cast<float>(setup.radiation_mj(today, day)));
      kernel.sun_day_length_h[end].push_back(static_cast<float>(today.day_length_h));
    }
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
  out.season_current = season_means(kernel.current, out.windows, Sign::amount);
  out.season_temperature = season_means(kernel.temperature, out.windows, Sign::either);
  out.season_salinity = season_means(kernel.salinity, out.windows, Sign::amount);
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
  const SunYear sun = sun_of_year(latitude_deg);
  const auto change = day_length_changes(sun);
  std::vector<DayForcing> days;
  for (int day = kernel.outplant[cell]; day <= kernel.last_haul[cell]; ++day) {
    const auto d = static_cast<std::size_t>(wrapped_day(day) - 1);
    const double radiation = kernel.radiation.values.empty() ? setup.radiation_mj(sun[d], day)
                                                             : positive(kernel.radiation, day);
    days.push_back({daily_value(temperature, day), positive(kernel.salinity, day),
                    positive(kernel.attenuation, day), positive(kernel.nitrogen, day),
                    positive(kernel.current, day), par_below_surface(radiation),
                    sun[d].day_length_h, change[d]});
    if (!kernel.ammonium.values.empty()) {
      days.back().nh4_share = ammonium_share(positive(kernel.ammonium, day), days.back().nitrogen);
    }
  }
  return days;
}

}  // namespace tidelot::run
