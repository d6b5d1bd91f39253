// SPDX-License-Identifier: Apache-2.0
// Published kelp trials and the water assumed for them: abstracts give the yield and the nitrogen,
// seldom the water, the dates or the nitrate. What is assumed says so. Nitrogen is nitrate alone.
#pragma once

#include <array>
#include <vector>

#include "tidelot/growth/kelp.hpp"
#include "tidelot/plan/crop_profile.hpp"
#include "tidelot/season/daily.hpp"
#include "tidelot/season/sun.hpp"

namespace tidelot::trials {

using Year = std::array<double, kMonths>;

/// A place with its assumed water.
struct KelpPlace {
  Year temperature;
  Year nitrate;  ///< umol/L
  double salinity, attenuation, current, latitude, line_depth_m;
};

inline const KelpConstants& sugar_kelp() {
  static const KelpConstants kKelp = kelp_constants(built_in_crop("sugar-kelp"));
  return kKelp;
}

/// Days are counted on over the new year. Half of the possible sunshine.
inline SeasonResult grow(const KelpPlace& place, int first, int last,
                         const KelpConstants& kelp = sugar_kelp()) {
  const auto change = day_length_changes(sun_of_year(place.latitude));
  std::vector<DayForcing> days;
  for (int day = first; day <= last; ++day) {
    const SunDay sun = sun_of_day(place.latitude, day);
    const double radiation = global_radiation_mj(0.5, sun.extraterrestrial_mj);
    days.push_back({daily_value(place.temperature, day), place.salinity, place.attenuation,
                    clamped_daily(place.nitrate, day), place.current, par_below_surface(radiation),
                    sun.day_length_h, change[static_cast<std::size_t>((day - 1) % kDaysPerYear)]});
  }
  return grow_season(days, {place.line_depth_m, 100.0, 14, 0.0}, kelp);
}

/// Tissue nitrogen at the end of a day, counted on over the new year.
inline double tissue_on(const SeasonResult& season, int first, int day) {
  return season.days.at(static_cast<std::size_t>(day - first)).tissue_n;
}

inline constexpr int kNewYear = kDaysPerYear;

/// Grebe et al. 2021. An assumed cool gulf: 43.5 N, water from 3 to 16 degC, nitrate mixed up in
/// winter and used up by the spring bloom in April; line at 2 m, clear oceanic water.
inline constexpr KelpPlace kGulf{{4, 3, 3.5, 5, 8, 12, 15, 16, 15, 12, 9, 6},
                                 {9, 9, 7, 3, 1, 0.5, 0.3, 0.3, 1, 4, 7, 9},
                                 31.5,
                                 0.25,
                                 0.15,
                                 43.5,
                                 2.0};
inline constexpr int kGulfOut = 319;              // 15 November, assumed
inline constexpr int kGulfHaul = kNewYear + 151;  // 31 May, assumed: 6.5 months

/// Kim et al. 2015. An assumed estuary and the open sound outside, 41 N; the estuary has the
/// nitrogen. The abstract does not tell the two sites of the sound apart.
inline constexpr KelpPlace kEstuary{{3, 2, 4, 8, 13, 18, 22, 23, 20, 15, 10, 6},
                                    {16, 16, 14, 11, 9, 6, 4, 4, 6, 10, 14, 16},
                                    27.0,
                                    0.7,
                                    0.2,
                                    41.0,
                                    1.0};
inline constexpr KelpPlace kSound{{4, 3, 4, 7, 12, 17, 21, 22, 20, 15, 11, 7},
                                  {8, 8, 5, 2, 1, 0.5, 0.5, 0.5, 1, 4, 7, 8},
                                  28.5,
                                  0.5,
                                  0.3,
                                  41.0,
                                  1.0};
inline constexpr int kSoundOut = 329;              // 25 November, assumed
inline constexpr int kSoundHaul = kNewYear + 140;  // 20 May, assumed

/// The 12 ha trial in a fjord, 2022 to 2023. An assumed northern fjord, 63.5 N: deep winter mixing,
/// nitrate gone from May on; line at 2 m.
inline constexpr KelpPlace kFjord{{5.5, 5, 4.5, 5.5, 8, 11, 13, 14, 12.5, 10.5, 8.5, 6.5},
                                  {8, 8, 8, 5, 1, 0.5, 0.5, 0.5, 1, 3, 5, 7},
                                  32.0,
                                  0.2,
                                  0.15,
                                  63.5,
                                  2.0};
inline constexpr int kFjordOut = 32;    // 1 February, assumed
inline constexpr int kFjordHaul = 151;  // 31 May, assumed

/// Forbord et al. 2020: an assumed coastal water at two depths.
inline KelpPlace coast(double line_depth_m) {
  KelpPlace place = kGulf;
  place.attenuation = 0.35;
  place.line_depth_m = line_depth_m;
  return place;
}

}  // namespace tidelot::trials
