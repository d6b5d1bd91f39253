// SPDX-License-Identifier: Apache-2.0
#include "calibration/tables.hpp"
#include "calibration/trial_table.hpp"
#include "support/red_alga_trials.hpp"

namespace tidelot::calibration {
namespace {

using AlgaTrial = Trial<AlgaConstants>;

AlgaTrial culture(double temperature, const char* quantity, double rate) {
  return {"Gorman et al. 2017",
          quantity,
          "%/d",
          rate,
          rate - 0.6,
          rate + 0.6,
          [temperature](const AlgaConstants& c) { return trials::culture_growth(temperature, c); }};
}

AlgaTrial exposure(double temperature, double salinity, const char* quantity) {
  return {"Kim et al. 2016", quantity, "%/d", {}, {}, 0.0, [=](const AlgaConstants& c) {
            return trials::long_exposure(temperature, salinity, c);
          }};
}

double lowest_tissue_nitrogen(const AlgaConstants& c) {
  double lowest = 100.0;
  for (int month = 0; month < kMonths; ++month) {
    lowest = std::min(lowest, 100.0 * trials::plants_in_place(month, c).days.back().tissue_n);
  }
  return lowest;
}

double raft_year(const AlgaConstants& c) {
  return trials::raft_growth({0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11}, 400.0, c);
}

double raft_summer(const AlgaConstants& c) { return trials::raft_growth({11, 0, 1}, 50.0, c); }

double raft_winter(const AlgaConstants& c) { return trials::raft_growth({5, 6, 7}, 50.0, c); }

std::vector<AlgaTrial> all_trials() {
  return {
      culture(20.0, "growth in culture at 20 degC", 9.1),
      culture(24.0, "growth in culture at 24 degC", 12.0),
      culture(29.0, "growth in culture at 29 degC", 9.4),
      culture(34.0, "growth in culture at 34 degC", 0.2),
      exposure(10.0, 28.0, "growth in a long stay at 10 degC"),
      exposure(34.0, 28.0, "growth in a long stay at 34 degC"),
      exposure(22.0, 20.0, "growth in a long stay at salinity 20"),
      {"Penniman 1983", "growth in place in the best month", "%/d", 11.0, 9.0, 13.0,
       trials::best_growth_in_place},
      {"Anderson et al. 1996", "growth on rafts at 400 g/m over the year", "%/d", 5.0, 4.0, 6.0,
       raft_year},
      {"Anderson et al. 1996",
       "growth on rafts thinly stocked in summer",
       "%/d",
       {},
       10.0,
       {},
       raft_summer},
      {"Anderson et al. 1996",
       "growth on rafts thinly stocked in winter",
       "%/d",
       {},
       6.0,
       7.5,
       raft_winter},
      {"Abreu et al. 2009", "growth near fish cages in the best month", "%/d", 4.0, 3.0, 5.0,
       trials::cage_growth},
      {"thesis of 2019", "growth in a poor estuary in the best season", "%/d", 1.17, -2.03, 4.37,
       trials::best_estuary_longline},
      {"Marinho-Soriano et al.",
       "growth of a dense crop in a tropical estuary",
       "%/d",
       {},
       -0.59,
       4.67,
       trials::tropical_estuary},
      {"Anderson et al. 1996", "gain on rafts in 30 days", "kg FW/m2", 2.0, 1.6, 2.4,
       trials::raft_gain},
      {"Abreu et al. 2009", "nitrogen near fish cages in the best month", "g N/m", 9.3, 7.0, 11.6,
       trials::cage_nitrogen},
      {"Penniman 1983",
       "lowest tissue nitrogen of the year",
       "% of DW",
       {},
       2.0,
       {},
       lowest_tissue_nitrogen},
  };
}

}  // namespace

std::string alga_table() {
  std::vector<AlgaConstants> draws;
  for (const Crop& crop : drawn_crops(built_in_crop("warm-red-alga"))) {
    draws.push_back(alga_constants(crop));
  }
  std::string table = kHeader;
  for (const AlgaTrial& trial : all_trials()) {
    table += row(trial, trials::alga(), std::optional(trials::net_fit()), draws);
  }
  return table;
}

}  // namespace tidelot::calibration
