// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <cmath>

#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

/// Parts are rounded once, at the smallest, so that 59.9996' never becomes 60.000'.
std::string degrees_minutes_seconds(double degrees, std::string_view marks) {
  const long tenths = std::lround(std::abs(degrees) * 36000.0);
  return fmt::format("{}° {:02d}′ {:02d}.{}″ {}", tenths / 36000, tenths / 600 % 60,
                     tenths / 10 % 60, tenths % 10, marks[degrees < 0.0 ? 1 : 0]);
}

}  // namespace

std::string fine_bearing(double degrees) {
  constexpr long kSeconds = 360L * 3600L;
  const long seconds = (std::lround(degrees * 3600.0) % kSeconds + kSeconds) % kSeconds;
  return fmt::format("{:03d}° {:02d}′ {:02d}″", seconds / 3600, seconds / 60 % 60, seconds % 60);
}

std::string decimal_degrees(LonLat place) {
  return fmt::format("{}, {}", fixed(place.lat, 6), fixed(place.lon, 6));
}

std::string decimal_minutes(double degrees, std::string_view marks, int decimals) {
  const long unit = std::lround(std::pow(10.0, decimals));
  const long parts = std::lround(std::abs(degrees) * 60.0 * static_cast<double>(unit));
  return fmt::format("{}° {:02d}.{:0{}d}′ {}", parts / (60 * unit), parts / unit % 60, parts % unit,
                     decimals, marks[degrees < 0.0 ? 1 : 0]);
}

std::string decimal_minutes(LonLat place) {
  return fmt::format("{}, {}", decimal_minutes(place.lat, label("words.north_south"), 3),
                     decimal_minutes(place.lon, label("words.east_west"), 3));
}

std::string minutes_seconds(LonLat place) {
  return fmt::format("{}, {}", degrees_minutes_seconds(place.lat, label("words.north_south")),
                     degrees_minutes_seconds(place.lon, label("words.east_west")));
}

}  // namespace tidelot::page
