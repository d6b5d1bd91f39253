// SPDX-License-Identifier: Apache-2.0
// The published trials of red algae as runs of the model: the conditions that their sources give,
// and beside "assumed" those that the abstracts leave open. No constant is tuned to any of them
// here. The tests of each source hold the results to its accepted band, and the calibration table
// (docs/science/calibration.md) prints them with the spread of the constants.
//
// Growth is ln(W2/W1)/t in % a day throughout.
#pragma once

#include "support/field_trial.hpp"

namespace tidelot::trials {

/// The constants that growth and respiration share, fitted together to the net rates of Gorman et
/// al. 2017 by least squares (30 starts) within the profile's ranges, t_min and Q10 kept: a root of
/// mean squares of 0.25 % a day, against 1.67 of the profile. Not in use; printed beside it.
inline AlgaConstants net_fit() {
  AlgaConstants c = alga();
  c.mu_max_per_day = 0.1462;
  c.t_opt = 25.82;
  c.t_max = 35.97;
  c.respiration_20 = 0.020;
  return c;
}

/// Gorman, Kraemer, Yarish, Boo & Kim 2017, Algae 32(1): flasks at one temperature, restocked every
/// week. Assumed: no breakage in a flask, a thin culture, the light that makes fI 1 and a full
/// reserve, which is how mu_max is defined. One day is enough: nothing changes from day to day.
inline double culture_growth(double temperature, AlgaConstants c) {
  c.loss_per_day = 0.0;
  c.shade_m2_per_g = 0.0;
  c.q_start = c.q_max;
  const Husbandry flask{0.0, 1e-3, 7, 1.0};
  const auto day = [&](double par) {
    const DayForcing forcing{temperature, 30.0, 0.0, 500.0, 1.0, par, c.light_ref_h};
    return grow_season(std::vector{forcing}, flask, c).days[0];
  };
  double dark = 0.0;
  double bright = 200.0;
  for (int step = 0; step < 50; ++step) {
    const double par = (dark + bright) / 2.0;
    (day(par).f_light < 1.0 ? dark : bright) = par;
  }
  return 100.0 * day(bright).growth_per_day;
}

/// Penniman 1983 (dissertation): plants in an estuary, in place, through the year. Assumed: 43 N,
/// the water of a cool-temperate estuary, Kd 0.8 1/m, DIN 10 umol/L, a few plants (10 g/m) a
/// quarter of a metre deep, 14 days about mid-month; growth is counted before breakage.
inline SeasonResult plants_in_place(int month, const AlgaConstants& c) {
  const Water estuary{{2, 1, 3, 7, 12, 18, 22, 23, 20, 14, 9, 5}, 28.0, 0.8, 10.0, 0.15, 43.0};
  return grow(estuary, static_cast<int>(middle_of_month(month)) - 6, 14, {0.25, 10.0, 14, 0.4}, c);
}

inline double growth_in_place(int month, const AlgaConstants& c) {
  return 100.0 * (mean_growth(plants_in_place(month, c)) + c.loss_per_day);
}

inline double best_growth_in_place(const AlgaConstants& c) {
  double best = -100.0;
  for (int month = 0; month < kMonths; ++month) {
    best = std::max(best, growth_in_place(month, c));
  }
  return best;
}

/// Kim et al. 2016, Phycologia 55:257: what is not withstood for long. Assumed: a summer on the
/// longline at 41 N in water that is good in all other respects.
inline double long_exposure(double temperature, double salinity, const AlgaConstants& c) {
  Water water = steady(temperature);
  water.salinity = salinity;
  return 100.0 * mean_growth(summer(water, c));
}

/// Anderson et al. 1996, J. Appl. Phycol. 8:421: G. gracilis on net lines of a raft, 0.2 m deep,
/// 0.75 m apart, 30 days a cycle. Assumed: 33 S, an upwelling bay of 13.5 to 18 degC and 34.8 psu,
/// Kd 0.3 1/m, DIN 10 umol/L, 0.1 m/s.
inline const Water& upwelling_bay() {
  static const Water kBay{
      {18, 18, 17, 16, 15, 14, 13.5, 13.5, 14, 15, 16, 17}, 34.8, 0.3, 10.0, 0.10, -33.0};
  return kBay;
}

/// A cycle of 30 days about mid-month.
inline SeasonResult raft_cycle(int month, double stocking, const AlgaConstants& c) {
  const int first = static_cast<int>(middle_of_month(month)) - 14;
  return grow(upwelling_bay(), first, 30, {0.2, stocking, 30, 0.4}, c);
}

/// Mean of the cycles of some months: growth, %/d.
inline double raft_growth(std::initializer_list<int> months, double stocking,
                          const AlgaConstants& c) {
  double sum = 0.0;
  for (const int month : months) {
    sum += 100.0 * mean_growth(raft_cycle(month, stocking, c));
  }
  return sum / static_cast<double>(months.size());
}

/// Mean of the year's cycles of 400 g/m: gain, kg FW per square metre of sea in 30 days.
inline double raft_gain(const AlgaConstants& c) {
  double sum = 0.0;
  for (int month = 0; month < kMonths; ++month) {
    sum += raft_cycle(month, 400.0, c).yield_g_per_m / 1000.0 / 0.75;
  }
  return sum / kMonths;
}

/// Abreu et al. 2009, Aquaculture 293:211: G. chilensis on lines near fish cages, 1 to 3 m deep,
/// summer and autumn. Assumed: 42 S, 15 to 11 degC, 30 psu, Kd 0.4 1/m, DIN 12 umol/L of which 60 %
/// is ammonium, 0.1 m/s, 400 g/m at 1 m, cycles of 30 days from January to April.
inline SeasonResult cage_cycle(int month, const AlgaConstants& c) {
  const Water water{
      {14.5, 15, 14, 13, 12, 11, 10.5, 10.5, 11, 12, 13, 14}, 30.0, 0.4, 12.0, 0.10, -42.0};
  const int first = static_cast<int>(middle_of_month(month)) - 14;
  return grow(water, first, 30, {1.0, 400.0, 30, 0.6}, c);
}

/// The best month's growth, %/d.
inline double cage_growth(const AlgaConstants& c) {
  double best = -100.0;
  for (int month = 0; month < 4; ++month) {
    best = std::max(best, 100.0 * mean_growth(cage_cycle(month, c)));
  }
  return best;
}

/// The best month's nitrogen, g N per metre of line.
inline double cage_nitrogen(const AlgaConstants& c) {
  double best = -100.0;
  for (int month = 0; month < 4; ++month) {
    best = std::max(best, cage_cycle(month, c).nitrogen_g_per_m);
  }
  return best;
}

/// Thesis of 2019: G. gracilis on a longline in an estuary, three weeks in each of four seasons.
/// Assumed: 50 N, 7, 11, 18 and 13 degC, 25 psu, Kd 2 1/m, DIN 20 umol/L, 0.3 m/s, 100 g/m at 1 m.
inline double estuary_longline(int season, const AlgaConstants& c) {
  constexpr std::array kFirstDays{30, 121, 196, 288};
  Water water{{6, 7, 8, 10, 12, 15, 17, 18, 16, 13, 10, 7}, 25.0, 2.0, 20.0, 0.3, 50.0};
  const auto first = kFirstDays[static_cast<std::size_t>(season)];
  return 100.0 * mean_growth(grow(water, first, 21, {1.0, 100.0, 21, 0.4}, c));
}

inline double best_estuary_longline(const AlgaConstants& c) {
  double best = -100.0;
  for (int season = 0; season < 4; ++season) {
    best = std::max(best, estuary_longline(season, c));
  }
  return best;
}

/// Marinho-Soriano et al.: G. birdiae in an estuary, six months, 900 to 3537 g FW/m2 standing (mean
/// 2124). Assumed: 6 S, 28 degC, 30 psu, Kd 1.5 1/m, DIN 5 umol/L, 0.1 m/s, at 0.5 m; the mean crop
/// over a canopy of half a metre, cut back every 30 days.
inline double tropical_estuary(const AlgaConstants& c) {
  Water water = steady(28.0);
  water.salinity = 30.0;
  water.attenuation = 1.5;
  water.current = 0.10;
  water.latitude = -6.0;
  const Husbandry husbandry{0.5, 2124.0 * c.canopy_width_m, 30, 0.4};
  return 100.0 * mean_growth(grow(water, 32, 180, husbandry, c));
}

}  // namespace tidelot::trials
