// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>

#include "tidelot/core/calendar.hpp"

namespace tidelot {

/// Sun of one day at one latitude (FAO Irrigation and Drainage Paper 56, Allen et al. 1998, chapter
/// 3, equations 21-25 and 34; the year has 365 days).
struct SunDay {
  double inverse_distance;     ///< d_r, eq. 23
  double declination;          ///< radians, eq. 24
  double sunset_angle;         ///< omega_s, radians, eq. 25; 0 in polar night, pi in polar day
  double extraterrestrial_mj;  ///< R_a, MJ m-2 d-1, eq. 21
  double day_length_h;         ///< N, hours, eq. 34
};
[[nodiscard]] SunDay sun_of_day(double latitude_deg, DayOfYear day);

/// Days 1..365 (index 0 is 1 January) at one latitude.
using SunYear = std::array<SunDay, kDaysPerYear>;
[[nodiscard]] SunYear sun_of_year(double latitude_deg);

/// Change of day length from the day before to each day of the year, over the greatest of them:
/// -1..1; 0 where the day length never changes.
[[nodiscard]] std::array<double, kDaysPerYear> day_length_changes(const SunYear& sun);

/// Global radiation (MJ m-2 d-1) from the share of possible sunshine: (0.25 + 0.50 n/N) R_a
/// (FAO-56 eq. 35).
[[nodiscard]] double global_radiation_mj(double sunshine_share, double extraterrestrial_mj);

/// PAR just below the surface, mol m-2 d-1, from global radiation in MJ m-2 d-1: 0.45 of it is PAR
/// (McCree 1972, from memory), 4.57 umol/J (Thimijan & Heins 1983), 0.94 enters the water (Payne
/// 1972, from memory).
[[nodiscard]] double par_below_surface(double global_radiation_mj);

/// Noon photon flux (umol m-2 s-1) of a half-sine day that carries par_mol over day_length_h.
[[nodiscard]] double noon_flux(double par_mol, double day_length_h);

}  // namespace tidelot
