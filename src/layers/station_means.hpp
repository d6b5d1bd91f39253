// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <string>
#include <vector>

#include "station_table.hpp"
#include "tidelot/core/calendar.hpp"

namespace tidelot {

/// What one place says of the year.
struct StationMeans {
  std::string station;
  LonLat place;
  std::string datum;
  std::array<double, kMonths> mean{};  ///< NaN where there is no reading
  std::array<int, kMonths> days{};     ///< with a reading
};

/// Readings by place (a station that was visited at two positions is two), ordered by longitude,
/// latitude and name. Readings of one day become their mean; a month is the mean of its days over
/// all years.
struct AllMeans {
  std::vector<StationMeans> places;
  std::size_t merged = 0;  ///< readings beyond the first of a day
  Day first, last;
};
[[nodiscard]] AllMeans monthly_means(const std::vector<Reading>& readings);

}  // namespace tidelot
