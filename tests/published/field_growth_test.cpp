// SPDX-License-Identifier: Apache-2.0
// What was measured in the field and how the model compares under conditions that the abstracts
// leave open and that are therefore assumed here. Sources beside each case; all were read as
// abstracts.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "tidelot/growth/model.hpp"
#include "tidelot/plan/crop_profile.hpp"
#include "tidelot/season/daily.hpp"
#include "tidelot/season/sun.hpp"

using namespace tidelot;

namespace {

struct Place {
  std::array<double, kMonths> temperature;
  double salinity = 28.0, attenuation = 0.8, nitrogen = 5.0, current = 0.15, latitude = 41.0;
};

Place steady(double temperature) {
  Place place{};
  place.temperature.fill(temperature);
  return place;
}

AlgaConstants alga() { return alga_constants(built_in_crop("warm-red-alga")); }

SeasonResult grow(const Place& place, int first, int last, const Husbandry& husbandry) {
  std::vector<DayForcing> days;
  for (int day = first; day <= last; ++day) {
    const SunDay sun = sun_of_day(place.latitude, day);
    const double radiation = global_radiation_mj(0.5, sun.extraterrestrial_mj);
    days.push_back({daily_value(place.temperature, day), place.salinity, place.attenuation,
                    place.nitrogen, place.current, par_below_surface(radiation), sun.day_length_h});
  }
  return grow_season(days, husbandry, alga());
}

/// 140 days from 1 June at 41 N, the rest as in Place.
SeasonResult summer(const Place& place) { return grow(place, 152, 291, {}); }

/// Mean growth of the longline crop over the season, ln, 1/d.
double mean_growth(const SeasonResult& season) {
  double sum = 0.0;
  for (const DayTrace& day : season.days) {
    sum += day.growth_per_day;
  }
  return sum / static_cast<double>(season.days.size());
}

/// A cool-temperate estuary's year, degC.
constexpr std::array<double, kMonths> kEstuary{2, 1, 3, 7, 12, 18, 22, 23, 20, 14, 9, 5};

/// Growth before breakage of a few plants near the surface, mean of 14 days about mid-month, 1/d.
double plant_growth(int month) {
  const Place place{kEstuary, 28.0, 0.8, 10.0, 0.15, 43.0};
  const int middle = static_cast<int>(middle_of_month(month));
  const SeasonResult season = grow(place, middle - 6, middle + 7, {0.25, 10.0, 14, 0.4});
  CHECK(season.days.back().tissue_n >= 0.02);  // never below 2 % of dry weight
  return mean_growth(season) + alga().loss_per_day;
}

}  // namespace

TEST_CASE("Penniman 1983 (dissertation): growth highest June to September, up to 11 % a day") {
  std::vector<double> growth;
  for (int month = 0; month < kMonths; ++month) {
    growth.push_back(plant_growth(month));
  }
  const auto best = std::max_element(growth.begin(), growth.end());
  CHECK((*best > 0.09 && *best < 0.13));  // accepted: 9 to 13 % a day
  CHECK((best - growth.begin() >= 5 && best - growth.begin() <= 8));
  for (const std::size_t winter : {0U, 1U, 2U, 3U, 10U, 11U}) {
    CHECK(growth[winter] <= 0.0);
  }
}

TEST_CASE(
    "Kim et al. 2016, Phycologia 55:257: no sustained growth at or below 10, or from 34 degC") {
  CHECK(summer(steady(10.0)).yield_g_per_m < 0.0);
  CHECK(summer(steady(8.0)).yield_g_per_m < 0.0);
  CHECK(summer(steady(34.0)).yield_g_per_m < 0.0);
  CHECK(mean_growth(summer(steady(34.0))) < 0.0);
}

TEST_CASE("Kim et al. 2016: salinity of 20 and below costs growth") {
  // The paper says that 20 and below are not withstood for long; other strains grow well at 20 (Wu
  // et al. 2018, Algae 33:329), so the profile lets growth fall off instead of cutting it.
  Place place = steady(22.0);
  const double best = summer(place).yield_g_per_m;
  place.salinity = 20.0;
  CHECK(summer(place).yield_g_per_m < 0.6 * best);
  place.salinity = 15.0;
  CHECK(summer(place).yield_g_per_m < 0.2 * best);
  place.salinity = 10.0;
  CHECK(summer(place).yield_g_per_m < 0.0);
}

TEST_CASE("poor estuary trials: growth between a loss and 5 % a day can come out") {
  // G. gracilis on a longline, thesis of 2019: at best +1.17 +- 3.2 % a day, else negative; G.
  // birdiae in an estuary: -0.59 to 4.67 % a day. Turbid, fresh or hot water is assumed.
  Place turbid = steady(22.0);
  turbid.attenuation = 3.0;
  turbid.salinity = 20.0;
  CHECK((mean_growth(summer(turbid)) > -0.02 && mean_growth(summer(turbid)) < 0.0117 + 0.032));
  Place fresh = steady(24.0);
  fresh.salinity = 12.0;
  CHECK(mean_growth(summer(fresh)) < 0.01);
  CHECK(mean_growth(summer(steady(33.0))) < 0.0);
  CHECK(summer(steady(33.0)).yield_g_per_m < 0.0);
}

TEST_CASE("20 to 30 degC and 25 to 33 psu are the trade's optimum (common practice, no source)") {
  double best = 0.0;
  for (double temperature = 5.0; temperature <= 36.0; temperature += 0.5) {
    best = std::max(best, mean_growth(summer(steady(temperature))));
  }
  // Within 85 % of the best from 20.5 to 27.5 degC only: the culture rates behind the curve (Gorman
  // et al. 2017) are themselves at 76 % of their best at 20 and 78 % at 29 degC.
  for (const double temperature : {20.5, 22.0, 25.0, 27.5}) {
    CHECK(mean_growth(summer(steady(temperature))) > 0.85 * best);
  }
  CHECK(mean_growth(summer(steady(20.0))) > 0.8 * best);
  CHECK(mean_growth(summer(steady(30.0))) > 0.5 * best);
  for (const double temperature : {14.0, 33.0}) {
    CHECK(mean_growth(summer(steady(temperature))) < 0.5 * best);
  }
  Place place = steady(22.0);
  place.salinity = 29.0;
  const double best_salinity = mean_growth(summer(place));
  for (const double salinity : {25.0, 33.0}) {
    place.salinity = salinity;
    CHECK(mean_growth(summer(place)) > 0.85 * best_salinity);
  }
}

TEST_CASE(
    "Glenn et al. 1999, Aquaculture 178:323: more ammonium, more growth, from 0.2 to 4 umol/L") {
  double before = 0.0;
  for (const double ammonium : {0.2, 0.5, 1.0, 2.0, 4.0}) {
    Place place = steady(25.0);
    place.nitrogen = ammonium / 0.4;
    const double growth = mean_growth(summer(place));
    CHECK(growth > before);
    before = growth;
  }
}
