// SPDX-License-Identifier: Apache-2.0
// What was measured on kelp farms and what the model grows under conditions that the abstracts
// leave open and that are therefore assumed here, beside each case. All sources were read as
// abstracts.
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "tidelot/growth/kelp.hpp"
#include "tidelot/plan/crop_profile.hpp"
#include "tidelot/season/daily.hpp"
#include "tidelot/season/sun.hpp"

using namespace tidelot;

namespace {

using Year = std::array<double, kMonths>;

/// Assumed water. Nitrogen is nitrate alone.
struct Place {
  Year temperature;
  Year nitrate;  ///< umol/L
  double salinity, attenuation, current, latitude, line_depth_m;
};

const KelpConstants& sugar_kelp() {
  static const KelpConstants kKelp = kelp_constants(built_in_crop("sugar-kelp"));
  return kKelp;
}

/// Days are counted on over the new year. Half of the possible sunshine.
SeasonResult grow(const Place& place, int first, int last) {
  const auto change = day_length_changes(place.latitude);
  std::vector<DayForcing> days;
  for (int day = first; day <= last; ++day) {
    const SunDay sun = sun_of_day(place.latitude, day);
    const double radiation = global_radiation_mj(0.5, sun.extraterrestrial_mj);
    days.push_back({daily_value(place.temperature, day), place.salinity, place.attenuation,
                    clamped_daily(place.nitrate, day), place.current, par_below_surface(radiation),
                    sun.day_length_h, change[static_cast<std::size_t>((day - 1) % kDaysPerYear)]});
  }
  return grow_season(days, {place.line_depth_m, 100.0, 14, 0.0}, sugar_kelp());
}

/// Tissue nitrogen at the end of a day, counted on over the new year.
double tissue_on(const SeasonResult& season, int first, int day) {
  return season.days.at(static_cast<std::size_t>(day - first)).tissue_n;
}

constexpr int kNewYear = kDaysPerYear;

/// An assumed cool gulf: 43.5 N, water from 3 to 16 degC, nitrate mixed up in winter and used up by
/// the spring bloom in April; line at 2 m, clear oceanic water.
constexpr Place kGulf{{4, 3, 3.5, 5, 8, 12, 15, 16, 15, 12, 9, 6},
                      {9, 9, 7, 3, 1, 0.5, 0.3, 0.3, 1, 4, 7, 9},
                      31.5,
                      0.25,
                      0.15,
                      43.5,
                      2.0};
constexpr int kGulfOut = 319;              // 15 November, assumed
constexpr int kGulfHaul = kNewYear + 151;  // 31 May, assumed: 6.5 months

/// An assumed estuary and the open sound outside, 41 N; the estuary has the nitrogen.
constexpr Place kEstuary{{3, 2, 4, 8, 13, 18, 22, 23, 20, 15, 10, 6},
                         {16, 16, 14, 11, 9, 6, 4, 4, 6, 10, 14, 16},
                         27.0,
                         0.7,
                         0.2,
                         41.0,
                         1.0};
constexpr Place kSound{{4, 3, 4, 7, 12, 17, 21, 22, 20, 15, 11, 7},
                       {8, 8, 5, 2, 1, 0.5, 0.5, 0.5, 1, 4, 7, 8},
                       28.5,
                       0.5,
                       0.3,
                       41.0,
                       1.0};
constexpr int kSoundOut = 329;              // 25 November, assumed
constexpr int kSoundHaul = kNewYear + 140;  // 20 May, assumed

}  // namespace

TEST_CASE("case 8, Grebe et al. 2021 (J. Appl. Phycol., doi 10.1007/s10811-021-02367-6)") {
  // Four sites in a cool gulf, 6 to 7 months: 9.84 to 14.84 kg/m, 1.04 to 3.82 % N of dry weight.
  const SeasonResult season = grow(kGulf, kGulfOut, kGulfHaul);
  INFO("yield " << season.yield_g_per_m << " g/m");
  CHECK((season.yield_g_per_m > 5000.0 && season.yield_g_per_m < 20000.0));  // accepted
  const double february = tissue_on(season, kGulfOut, kNewYear + 45);
  const double april = tissue_on(season, kGulfOut, kNewYear + 105);
  const double haul = season.days.back().tissue_n;
  INFO("tissue N " << february << " " << april << " " << haul);
  CHECK(february > april);  // accepted: N falls through spring
  CHECK(april > haul);
  CHECK((haul > 0.0104 && february < 0.0382));
}

TEST_CASE("case 7, Kim et al. 2015 (MEPS 531:155-166): kelp at 1.5 m between lines") {
  // Measured: 9.3 and 5.5 to 9.1 kg/m; 180 and 38 to 67 kg N/ha: 27 and 5.7 to 10 g N/m.
  const SeasonResult estuary = grow(kEstuary, kSoundOut, kSoundHaul);
  const SeasonResult sound = grow(kSound, kSoundOut, kSoundHaul);
  INFO("estuary " << estuary.yield_g_per_m << " g/m, N " << estuary.nitrogen_g_per_m << " tissue "
                  << estuary.days.back().tissue_n);
  INFO("sound " << sound.yield_g_per_m << " g/m, N " << sound.nitrogen_g_per_m << " tissue "
                << sound.days.back().tissue_n);
  CHECK((estuary.yield_g_per_m > 5000.0 && estuary.yield_g_per_m < 20000.0));
  CHECK((sound.yield_g_per_m > 5000.0 && sound.yield_g_per_m < 20000.0));
  CHECK(estuary.nitrogen_g_per_m >
        sound.nitrogen_g_per_m);  // accepted: the estuary before the rest
  CHECK(estuary.days.back().tissue_n > sound.days.back().tissue_n);
}

TEST_CASE("case 7: removal per hectare is yield times nitrogen per fresh weight, within 10 %") {
  // Yields (a project report of 2014) and removals (the paper) of the three sites, with the
  // nitrogen content that they imply: 2.903, 1.104, 1.036 g N per kg fresh weight.
  const double line_m_per_ha = 10000.0 / 1.5;
  CHECK(9.3 * line_m_per_ha * 2.903e-3 == Approx(180.0).epsilon(0.1));
  CHECK(9.1 * line_m_per_ha * 1.104e-3 == Approx(67.0).epsilon(0.1));
  CHECK(5.5 * line_m_per_ha * 1.036e-3 == Approx(38.0).epsilon(0.1));
  // The model's own removal is its haul times its tissue nitrogen times a dry weight that lies in
  // the trade's range of 10 to 15 % (from memory).
  for (const Place& place : {kEstuary, kSound, kGulf}) {
    const SeasonResult season = grow(place, kSoundOut, kSoundHaul);
    const double dry = season.nitrogen_g_per_m / season.days.back().tissue_n;
    INFO("dry over fresh " << dry / season.yield_g_per_m);
    CHECK((dry / season.yield_g_per_m > 0.10 && dry / season.yield_g_per_m < 0.15));
  }
}

TEST_CASE("case 7: nitrogen per fresh weight as measured, within 10 %", "[!shouldfail]") {
  // The model gives 2.3 and 2.0 g N per kg where 2.9 and 1.0 to 1.1 were measured: the order is
  // right, the spread is not. The abstract states neither nitrate nor the day of the haul, and both
  // move this figure more than the constants do within their ranges.
  const auto per_kg = [](const Place& place) {
    const SeasonResult season = grow(place, kSoundOut, kSoundHaul);
    return 1000.0 * season.nitrogen_g_per_m / season.yield_g_per_m;
  };
  CHECK(per_kg(kEstuary) == Approx(2.903).epsilon(0.1));
  CHECK(per_kg(kSound) == Approx(1.104).epsilon(0.1));
}

TEST_CASE("K-11, K-12: yields and removals per hectare (arithmetic of the sources)") {
  const double line_m_per_ha = 10000.0 / 1.5;
  CHECK(9.3 * line_m_per_ha == Approx(62000.0).epsilon(1e-6));
  CHECK(62000.0 * 2.9032e-3 == Approx(180.0).margin(0.05));
  CHECK(23.0e-3 * 1000.0 == Approx(23.0));
}

TEST_CASE(
    "Forbord et al. 2020 (doi 10.1007/s10811-020-02038-y): 1 to 2 m far better than 8 to 9 m") {
  Place shallow = kGulf;
  shallow.line_depth_m = 1.5;
  shallow.attenuation = 0.35;  // an assumed coastal water
  Place deep = shallow;
  deep.line_depth_m = 8.5;
  CHECK(grow(shallow, kGulfOut, kGulfHaul).yield_g_per_m >
        2.0 * grow(deep, kGulfOut, kGulfHaul).yield_g_per_m);
}

TEST_CASE("Fortes & Luening 1980 (Helgol. 34, doi 10.1007/BF01983538): best at 10 to 15 degC") {
  for (const double t : {10.0, 12.0, 15.0}) {
    CHECK(sugar_kelp().temperature(t) == 1.0);
  }
  CHECK(sugar_kelp().temperature(5.0) < 1.0);
  CHECK(sugar_kelp().temperature(18.0) < 1.0);
}

TEST_CASE(
    "Bolton & Luening 1982 (Mar. Biol. 66:89, from memory): 50 to 70 % less growth at 20 degC",
    "[!shouldfail]") {
  // The model's growth ends at 19 degC, one degree before: its curve was fitted to another
  // population. Kept as the paper of the model has it.
  CHECK((sugar_kelp().temperature(20.0) >= 0.3 && sugar_kelp().temperature(20.0) <= 0.5));
}

TEST_CASE("Bolton & Luening 1982: no growth from 20 to 23 degC on, where the frond dies") {
  CHECK(sugar_kelp().temperature(23.0) == 0.0);
}
