// SPDX-License-Identifier: Apache-2.0
// Grows the red alga under the water of a published trial. What a trial's source leaves open is
// assumed by its caller, who says so.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "tidelot/growth/model.hpp"
#include "tidelot/plan/crop_profile.hpp"
#include "tidelot/season/daily.hpp"
#include "tidelot/season/sun.hpp"

namespace tidelot::trials {

/// Temperatures at the mid-months; the rest is steady. Half of the possible sunshine.
struct Water {
  std::array<double, kMonths> temperature;
  double salinity = 28.0, attenuation = 0.8, nitrogen = 5.0, current = 0.15, latitude = 41.0;
};

inline Water steady(double temperature) {
  Water water{};
  water.temperature.fill(temperature);
  return water;
}

inline AlgaConstants alga() { return alga_constants(built_in_crop("warm-red-alga")); }

/// A season of so many days from a day of the year on.
inline SeasonResult grow(const Water& water, int first, int days, const Husbandry& husbandry,
                         const AlgaConstants& constants) {
  std::vector<DayForcing> forcing;
  for (int day = first; day < first + days; ++day) {
    const SunDay sun = sun_of_day(water.latitude, day);
    const double radiation = global_radiation_mj(0.5, sun.extraterrestrial_mj);
    forcing.push_back({daily_value(water.temperature, day), water.salinity, water.attenuation,
                       water.nitrogen, water.current, par_below_surface(radiation),
                       sun.day_length_h});
  }
  return grow_season(forcing, husbandry, constants);
}

/// 140 days from 1 June, stocked with 100 g/m a metre deep, cut every two weeks.
inline SeasonResult summer(const Water& water, const AlgaConstants& constants) {
  return grow(water, 152, 140, {}, constants);
}

/// Mean growth over the season, net of respiration and breakage, ln, 1/d.
inline double mean_growth(const SeasonResult& season) {
  double sum = 0.0;
  for (const DayTrace& day : season.days) {
    sum += day.growth_per_day;
  }
  return sum / static_cast<double>(season.days.size());
}

}  // namespace tidelot::trials
