// SPDX-License-Identifier: Apache-2.0
// What was measured on kelp farms and what the model grows under conditions that the abstracts
// leave open and that are therefore assumed (tests/support/kelp_trials.hpp). All sources were read
// as abstracts.
#include <catch2/catch.hpp>
#include <cmath>

#include "support/kelp_trials.hpp"

using namespace tidelot;
using namespace tidelot::trials;

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
  for (const KelpPlace& place : {kEstuary, kSound, kGulf}) {
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
  const auto per_kg = [](const KelpPlace& place) {
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
  CHECK(grow(coast(1.5), kGulfOut, kGulfHaul).yield_g_per_m >
        2.0 * grow(coast(8.5), kGulfOut, kGulfHaul).yield_g_per_m);
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
