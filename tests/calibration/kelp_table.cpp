// SPDX-License-Identifier: Apache-2.0
#include "calibration/tables.hpp"
#include "calibration/trial_table.hpp"
#include "support/kelp_trials.hpp"

namespace tidelot::calibration {
namespace {

using trials::KelpPlace;
using KelpTrial = Trial<KelpConstants>;

/// A season of a trial.
struct Season {
  const KelpPlace& place;
  int out, haul;

  [[nodiscard]] SeasonResult grown(const KelpConstants& k) const {
    return trials::grow(place, out, haul, k);
  }
};

constexpr Season kEstuary{trials::kEstuary, trials::kSoundOut, trials::kSoundHaul};
constexpr Season kSound{trials::kSound, trials::kSoundOut, trials::kSoundHaul};
constexpr Season kGulf{trials::kGulf, trials::kGulfOut, trials::kGulfHaul};
constexpr Season kFjord{trials::kFjord, trials::kFjordOut, trials::kFjordHaul};

double yield_kg(const SeasonResult& season) { return season.yield_g_per_m / 1000.0; }

/// Half to double of what was measured (judgement: damaged lines, assumed water).
KelpTrial yield(const char* source, const char* quantity, double kg_per_m, Season at) {
  return {source,
          quantity,
          "kg FW/m",
          kg_per_m,
          0.5 * kg_per_m,
          2.0 * kg_per_m,
          [=](const KelpConstants& k) { return yield_kg(at.grown(k)); }};
}

KelpTrial nitrogen(const char* source, const char* quantity, double g_per_m, Season at) {
  return {source,
          quantity,
          "g N/m",
          g_per_m,
          0.5 * g_per_m,
          2.0 * g_per_m,
          [=](const KelpConstants& k) { return at.grown(k).nitrogen_g_per_m; }};
}

KelpTrial per_fresh(const char* source, const char* quantity, double g_per_kg, Season at) {
  return {source,
          quantity,
          "g N/kg FW",
          g_per_kg,
          0.9 * g_per_kg,
          1.1 * g_per_kg,
          [=](const KelpConstants& k) {
            const SeasonResult season = at.grown(k);
            return season.nitrogen_g_per_m / yield_kg(season);
          }};
}

/// The gulf's tissue nitrogen on a day less that at the haul, % of dry weight.
double fall_of_tissue(const KelpConstants& k) {
  const SeasonResult season = kGulf.grown(k);
  const double february = trials::tissue_on(season, kGulf.out, trials::kNewYear + 45);
  return 100.0 * (february - season.days.back().tissue_n);
}

double shallow_over_deep(const KelpConstants& k) {
  const double shallow = Season{trials::coast(1.5), kGulf.out, kGulf.haul}.grown(k).yield_g_per_m;
  const double deep = Season{trials::coast(8.5), kGulf.out, kGulf.haul}.grown(k).yield_g_per_m;
  return shallow / std::max(deep, 1e-9);
}

double early_over_late(const KelpConstants& k) {
  const Season late{trials::kGulf, kGulf.out + 45, kGulf.haul};
  return yield_kg(kGulf.grown(k)) / yield_kg(late.grown(k));
}

const char* const kKim = "Kim et al. 2015";
const char* const kGrebe = "Grebe et al. 2021";

/// Per hectare at 1.5 m between lines is per 6667 m of line.
double per_m(double kg_per_ha) { return 1.5e-4 * 1000.0 * kg_per_ha; }

std::vector<KelpTrial> all_trials() {
  return {
      yield(kKim, "yield in the estuary", 9.3, kEstuary),
      yield(kKim, "yield at the first site of the sound", 9.1, kSound),
      yield(kKim, "yield at the second site of the sound", 5.5, kSound),
      {kGrebe,
       "yield in a cool gulf",
       "kg FW/m",
       {},
       5.0,
       20.0,
       [](const KelpConstants& k) { return yield_kg(kGulf.grown(k)); }},
      {"Front. Aquac. 2023",
       "yield in an estuary",
       "kg FW/m",
       {},
       0.36,
       11.26,
       [](const KelpConstants& k) { return yield_kg(kEstuary.grown(k)); }},
      nitrogen(kKim, "nitrogen from the estuary", per_m(180.0), kEstuary),
      nitrogen(kKim, "nitrogen from the first site of the sound", per_m(67.0), kSound),
      nitrogen(kKim, "nitrogen from the second site of the sound", per_m(38.0), kSound),
      {"Front. Aquac. 2023",
       "nitrogen from an estuary",
       "g N/m",
       {},
       0.28,
       16.35,
       [](const KelpConstants& k) { return kEstuary.grown(k).nitrogen_g_per_m; }},
      {"fjord trial of 2022-23",
       "nitrogen from a northern fjord",
       "g N/m",
       {},
       {},
       23.0,
       [](const KelpConstants& k) { return kFjord.grown(k).nitrogen_g_per_m; }},
      per_fresh(kKim, "nitrogen content in the estuary", 2.903, kEstuary),
      per_fresh(kKim, "nitrogen content at the first site of the sound", 1.104, kSound),
      per_fresh(kKim, "nitrogen content at the second site of the sound", 1.036, kSound),
      {kGrebe,
       "tissue nitrogen at the haul",
       "% of DW",
       {},
       1.04,
       3.82,
       [](const KelpConstants& k) { return 100.0 * kGulf.grown(k).days.back().tissue_n; }},
      {kGrebe,
       "fall of tissue nitrogen from February to the haul",
       "% of DW",
       {},
       0.0,
       {},
       fall_of_tissue},
      {"Forbord et al. 2020",
       "yield at 1.5 m over that at 8.5 m",
       "ratio",
       {},
       2.0,
       {},
       shallow_over_deep},
      {"Front. Aquac. 2023",
       "yield of an outplant 45 days earlier over the later",
       "ratio",
       {},
       1.0,
       {},
       early_over_late},
      {"Bolton & Luening 1982",
       "growth at 20 degC over the best",
       "ratio",
       {},
       0.3,
       0.5,
       [](const KelpConstants& k) { return k.temperature(20.0); }},
  };
}

}  // namespace

std::string kelp_table() {
  std::vector<KelpConstants> draws;
  for (const Crop& crop : drawn_crops(built_in_crop("sugar-kelp"))) {
    draws.push_back(kelp_constants(crop));
  }
  std::string table = kHeader;
  for (const KelpTrial& trial : all_trials()) {
    table += row(trial, trials::sugar_kelp(), std::optional<KelpConstants>(), draws);
  }
  return table;
}

}  // namespace tidelot::calibration
