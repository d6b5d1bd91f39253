// SPDX-License-Identifier: Apache-2.0
// A wind rose from a series of winds in time.
#pragma once

#include <string>
#include <vector>

#include "tidelot/layers/cf_time.hpp"
#include "tidelot/layers/series.hpp"
#include "tidelot/layers/wind_rose.hpp"

namespace tidelot {

/// Wind step by step, those that are known; m/s at 10 m, degrees from which it blows.
struct WindSteps {
  std::vector<CfDate> days;
  std::vector<double> speeds;
  std::vector<double> from_deg;
  std::size_t missing = 0;
  std::string unit;  ///< as LayerReport
};

/// The standard names that a series of winds may have: eastward_wind with northward_wind, or
/// wind_speed with wind_from_direction.
[[nodiscard]] std::span<const std::string_view> wind_names();

/// From a file's series; height_m of the wind above the sea. key and written for messages. Throws
/// Error(input) where a name's partner, a unit or the time axis is missing or a speed is beyond
/// belief.
[[nodiscard]] WindSteps wind_steps(const TimeSeries& series, double height_m,
                                   const std::string& key, const std::string& written);

/// Yearly maxima are fitted where there are so many full years at least (judgement: fewer say
/// little of one in fifty).
inline constexpr std::size_t kFewestYears = 10;

/// Sixteen sectors with classes of 1 m/s. Of full years (steps on nine tenths of their days, and
/// nine tenths of the fullest year's steps) the highest wind of each sector gives its speeds once a
/// year and once in fifty, by Gumbel's distribution; with fewer than kFewestYears, or where a
/// sector's maxima give none above 0, they stay 0, not given.
struct SeriesRose {
  WindRose rose;
  std::size_t full_years = 0;
};
[[nodiscard]] SeriesRose series_rose(const WindSteps& steps, CfCalendar calendar);

}  // namespace tidelot
