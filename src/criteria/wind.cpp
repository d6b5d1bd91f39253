// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/wind.hpp"

#include <algorithm>
#include <cmath>

namespace tidelot {
namespace {

constexpr double kSpellsPerYear = 365.25 * 24.0 / 3.0;

struct Moments {
  double weight = 0.0;
  double mean = 0.0;
  double sd = 0.0;
};

Moments moments_of(std::span<const WindClass> classes) {
  Moments m;
  for (const WindClass& each : classes) {
    m.weight += each.share;
    m.mean += each.share * each.speed;
  }
  if (m.weight <= 0.0) {
    return m;
  }
  m.mean /= m.weight;
  for (const WindClass& each : classes) {
    m.sd += each.share * (each.speed - m.mean) * (each.speed - m.mean);
  }
  m.sd = std::sqrt(m.sd / m.weight);
  return m;
}

}  // namespace

double Weibull::above(double speed) const {
  return scale > 0.0 ? std::exp(-std::pow(std::max(speed, 0.0) / scale, shape)) : 0.0;
}

Weibull weibull_of(std::span<const WindClass> classes) {
  const Moments m = moments_of(classes);
  if (!(m.mean > 0.0)) {
    return {};
  }
  const double shape =
      m.sd > 1e-9 * m.mean ? std::clamp(std::pow(m.sd / m.mean, -1.086), 1.0, 4.0) : 2.0;
  return {m.mean / std::tgamma(1.0 + 1.0 / shape), shape};
}

double return_speed(const Weibull& wind, double share, double years) {
  const double events = std::max(share * kSpellsPerYear, 1.0) * years;
  return wind.scale * std::pow(std::log(events), 1.0 / wind.shape);
}

SectorWind sector_wind(const WindSector& sector) {
  SectorWind wind;
  wind.from_deg = sector.from_deg;
  for (const WindClass& each : sector.classes) {
    wind.share += each.share;
  }
  wind.speeds = weibull_of(sector.classes);
  wind.high_given = sector.speed_1y > 0.0 && sector.speed_50y > 0.0;
  wind.speed_1y =
      sector.speed_1y > 0.0 ? sector.speed_1y : return_speed(wind.speeds, wind.share, 1.0);
  wind.speed_50y =
      sector.speed_50y > 0.0 ? sector.speed_50y : return_speed(wind.speeds, wind.share, 50.0);
  return wind;
}

}  // namespace tidelot
