// SPDX-License-Identifier: Apache-2.0
// How often and how hard the wind blows out of a sector.
#pragma once

#include <span>

#include "tidelot/layers/wind_rose.hpp"

namespace tidelot {

/// Weibull's distribution of wind speed: P(U > u) = exp(-(u/scale)^shape).
struct Weibull {
  double scale = 0.0;  ///< m/s
  double shape = 2.0;

  /// Share of the time above a speed; 1 at 0, 0 everywhere for scale 0.
  [[nodiscard]] double above(double speed) const;
};

/// Fit to classes of speeds by their mean and standard deviation: shape = (sd/mean)^-1.086, scale =
/// mean / gamma(1 + 1/shape) (Justus, Hargraves, Mikhail & Graber 1978, J. Appl. Meteorol.
/// 17:350-353; from memory). A single class has no spread: shape 2 (Rayleigh). The spread inside
/// the classes is not in their means, so shape is kept within 1 and 4.
[[nodiscard]] Weibull weibull_of(std::span<const WindClass> classes);

/// Speed exceeded once in so many years on average, m/s: scale (ln(years x events a
/// year))^(1/shape) with the events a year that a sector has: its share of the time in spells of
/// three hours, which are taken as independent (judgement). At least one event a year.
[[nodiscard]] double return_speed(const Weibull& wind, double share, double years);

/// A sector's winds as waves need them.
struct SectorWind {
  double from_deg = 0.0;
  double share = 0.0;  ///< of all time
  Weibull speeds;
  double speed_1y = 0.0, speed_50y = 0.0;  ///< as given, else from the fit
  bool high_given = false;                 ///< both stood in the table
};
[[nodiscard]] SectorWind sector_wind(const WindSector& sector);

}  // namespace tidelot
