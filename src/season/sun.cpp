// SPDX-License-Identifier: Apache-2.0
#include "tidelot/season/sun.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tidelot {
namespace {

constexpr double kPi = std::numbers::pi;

}  // namespace

SunDay sun_of_day(double latitude_deg, DayOfYear day) {
  const double latitude = latitude_deg * kPi / 180.0;
  const double year = 2.0 * kPi * day / kDaysPerYear;
  SunDay sun{};
  sun.inverse_distance = 1.0 + 0.033 * std::cos(year);
  sun.declination = 0.409 * std::sin(year - 1.39);
  // Beyond [-1, 1] the sun does not set, or does not rise.
  const double cosine = -std::tan(latitude) * std::tan(sun.declination);
  sun.sunset_angle = std::acos(std::clamp(cosine, -1.0, 1.0));
  const double height = sun.sunset_angle * std::sin(latitude) * std::sin(sun.declination) +
                        std::cos(latitude) * std::cos(sun.declination) * std::sin(sun.sunset_angle);
  sun.extraterrestrial_mj = 1440.0 / kPi * 0.0820 * sun.inverse_distance * height;
  sun.day_length_h = 24.0 / kPi * sun.sunset_angle;
  return sun;
}

SunYear sun_of_year(double latitude_deg) {
  SunYear sun{};
  for (DayOfYear day = 1; day <= kDaysPerYear; ++day) {
    sun[static_cast<std::size_t>(day - 1)] = sun_of_day(latitude_deg, day);
  }
  return sun;
}

std::array<double, kDaysPerYear> day_length_changes(const SunYear& sun) {
  std::array<double, kDaysPerYear> change{};
  double before = sun.back().day_length_h;
  double greatest = 0.0;
  for (std::size_t day = 0; day < sun.size(); ++day) {
    const double length = sun[day].day_length_h;
    change[day] = length - before;
    greatest = std::max(greatest, std::abs(length - before));
    before = length;
  }
  if (greatest > 0.0) {
    for (double& each : change) {
      each /= greatest;
    }
  }
  return change;
}

double global_radiation_mj(double sunshine_share, double extraterrestrial_mj) {
  return (0.25 + 0.50 * sunshine_share) * extraterrestrial_mj;
}

double par_below_surface(double global_radiation_mj) {
  return 0.94 * 0.45 * 4.57 * global_radiation_mj;
}

double noon_flux(double par_mol, double day_length_h) {
  return day_length_h > 0.0 ? kPi / 2.0 * par_mol * 1e6 / (3600.0 * day_length_h) : 0.0;
}

}  // namespace tidelot
