// SPDX-License-Identifier: Apache-2.0
#include "station_means.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <tuple>

namespace tidelot {
namespace {

struct Mean {
  double sum = 0.0;
  int count = 0;
  void add(double value) {
    sum += value;
    ++count;
  }
  [[nodiscard]] double value() const {
    return count > 0 ? sum / count : std::numeric_limits<double>::quiet_NaN();
  }
};

using PlaceKey = std::tuple<double, double, std::string, std::string>;

StationMeans means_of(const PlaceKey& key, const std::map<Day, Mean>& days) {
  StationMeans out;
  std::tie(out.place.lon, out.place.lat, out.station, out.datum) = key;
  std::array<Mean, kMonths> months;
  for (const auto& [day, mean] : days) {
    months[static_cast<std::size_t>(day.month - 1)].add(mean.value());
  }
  for (std::size_t m = 0; m < kMonths; ++m) {
    out.mean[m] = months[m].value();
    out.days[m] = months[m].count;
  }
  return out;
}

}  // namespace

AllMeans monthly_means(const std::vector<Reading>& readings) {
  std::map<PlaceKey, std::map<Day, Mean>> places;
  AllMeans out;
  for (const Reading& reading : readings) {
    const PlaceKey key{reading.place.lon, reading.place.lat, reading.station, reading.datum};
    Mean& day = places[key][reading.day];
    out.merged += day.count > 0 ? 1 : 0;
    day.add(reading.value);
  }
  for (const auto& [key, days] : places) {
    out.places.push_back(means_of(key, days));
  }
  const auto by_day = [](const Reading& a, const Reading& b) { return a.day < b.day; };
  const auto [first, last] = std::minmax_element(readings.begin(), readings.end(), by_day);
  if (first != readings.end()) {
    out.first = first->day;
    out.last = last->day;
  }
  return out;
}

}  // namespace tidelot
