// SPDX-License-Identifier: Apache-2.0
// Prints what the model predicts for the published trials beside what was measured, as CSV: with
// the profile's constants, the spread that their triangular ranges give (200 draws of a Latin
// hypercube, fixed seed), and with the constants fitted to the net culture rates. The table that is
// committed as docs/science/calibration.csv; written anew by scripts/calibration.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numeric>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "support/red_alga_trials.hpp"
#include "tidelot/core/text.hpp"

using namespace tidelot;

namespace {

constexpr std::size_t kDraws = 200;

/// A measured figure and the band accepted around it; what is not given stays empty.
struct Trial {
  const char* source;
  const char* quantity;
  const char* unit;
  std::optional<double> measured, low, high;
  std::function<double(const AlgaConstants&)> predicted;
};

Trial culture(double temperature, const char* quantity, double rate) {
  return {"Gorman et al. 2017",
          quantity,
          "%/d",
          rate,
          rate - 0.6,
          rate + 0.6,
          [temperature](const AlgaConstants& c) { return trials::culture_growth(temperature, c); }};
}

Trial exposure(double temperature, double salinity, const char* quantity) {
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

std::vector<Trial> all_trials() {
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

/// Quantile of a triangular distribution.
double triangular(const CropConstant& c, double share) {
  const double width = c.high - c.low;
  return share * width < c.value - c.low
             ? c.low + std::sqrt(share * width * (c.value - c.low))
             : c.high - std::sqrt((1.0 - share) * width * (c.high - c.value));
}

/// One number in each of kDraws equal parts of 0..1, in random order; the constant's name is the
/// seed, so that a profile with one constant more draws the others alike. The standard fixes what
/// engines give but not its distributions, so those are written out.
std::vector<double> shares(const std::string& constant) {
  std::seed_seq seed(constant.begin(), constant.end());
  std::mt19937_64 random(seed);
  std::vector<std::size_t> part(kDraws);
  std::iota(part.begin(), part.end(), std::size_t{0});
  for (std::size_t i = kDraws - 1; i > 0; --i) {
    std::swap(part[i], part[random() % (i + 1)]);
  }
  std::vector<double> share;
  for (const std::size_t p : part) {
    const double within = static_cast<double>(random() >> 11U) * 0x1p-53;
    share.push_back((static_cast<double>(p) + within) / static_cast<double>(kDraws));
  }
  return share;
}

std::vector<AlgaConstants> drawn_constants() {
  const Crop profile = built_in_crop("warm-red-alga");
  std::vector<Crop> crops(kDraws, profile);
  for (std::size_t i = 0; i < profile.constants.size(); ++i) {
    const CropConstant& constant = profile.constants[i];
    if (constant.high > constant.low) {
      const std::vector<double> share = shares(constant.name);
      for (std::size_t draw = 0; draw < kDraws; ++draw) {
        crops[draw].constants[i].value = triangular(constant, share[draw]);
      }
    }
  }
  std::vector<AlgaConstants> constants;
  for (const Crop& crop : crops) {
    constants.push_back(alga_constants(crop));
  }
  return constants;
}

std::array<double, 3> spread(const Trial& trial, const std::vector<AlgaConstants>& draws) {
  std::vector<double> results;
  for (const AlgaConstants& constants : draws) {
    results.push_back(trial.predicted(constants));
  }
  std::sort(results.begin(), results.end());
  const auto at = [&](std::size_t tenths) { return results[kDraws * tenths / 10]; };
  return {at(1), at(5), at(9)};
}

std::string cell(std::optional<double> value) { return value ? fixed(*value, 2) : std::string(); }

std::string row(const Trial& trial, const std::vector<AlgaConstants>& draws) {
  const double predicted = trial.predicted(trials::alga());
  const auto [p10, p50, p90] = spread(trial, draws);
  const bool inside =
      !(trial.low && predicted < *trial.low) && !(trial.high && predicted > *trial.high);
  return fmt::format("{},{},{},{},{},{},{},{},{},{},{},{}\n", trial.source, trial.quantity,
                     trial.unit, cell(trial.measured), cell(trial.low), cell(trial.high),
                     cell(predicted), cell(p10), cell(p50), cell(p90),
                     cell(trial.predicted(trials::net_fit())), inside ? "inside" : "outside");
}

}  // namespace

int main() {
  fmt::print(
      "source,quantity,unit,measured,accept_low,accept_high,predicted,p10,p50,p90,net_fit,"
      "predicted_is\n");
  const std::vector<AlgaConstants> draws = drawn_constants();
  for (const Trial& trial : all_trials()) {
    fmt::print("{}", row(trial, draws));
  }
  return 0;
}
