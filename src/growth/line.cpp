// SPDX-License-Identifier: Apache-2.0
#include "growth/line.hpp"

#include <algorithm>

namespace tidelot {
namespace {

/// What is cut at the end of a day: all on the last one, what is above the stocking weight every
/// harvest_days, else nothing.
double cut_of_day(std::size_t day, std::size_t days, double weight, const Husbandry& husbandry) {
  if (day == days) {
    return weight;
  }
  const bool harvest = day % static_cast<std::size_t>(husbandry.harvest_days) == 0;
  return harvest ? std::max(0.0, weight - husbandry.stocking_g_per_m) : 0.0;
}

}  // namespace

double AlgaLine::haul(DayTrace& trace, Crop1m& crop, std::size_t number, std::size_t days) const {
  trace.harvest_g_per_m = cut_of_day(number, days, crop.weight, husbandry_);
  crop.weight -= trace.harvest_g_per_m;
  return trace.harvest_g_per_m * constants_.dry_to_fresh * trace.tissue_n;
}

double KelpLine::haul(DayTrace& trace, Frond& frond, std::size_t number, std::size_t days) const {
  if (number < days) {
    return 0.0;
  }
  trace.harvest_g_per_m = trace.biomass_g_per_m;
  return constants_.fronds_per_m * kelp::total_nitrogen(frond, constants_);
}

void count(SeasonResult& season, const DayTrace& day, double hauled_n_g_per_m) {
  season.yield_g_per_m += day.harvest_g_per_m;
  season.nitrogen_g_per_m += hauled_n_g_per_m;
  season.uptake_g_per_m += day.uptake_g_per_m;
  season.lost_n_g_per_m += day.lost_n_g_per_m;
  season.harvests += day.harvest_g_per_m > 0.0 ? 1 : 0;
}

void subtract(SeasonResult& season, const Stocked& stocked) {
  season.yield_g_per_m -= stocked.fresh_g_per_m;
  season.nitrogen_g_per_m -= stocked.nitrogen_g_per_m;
}

}  // namespace tidelot
