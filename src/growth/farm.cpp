// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/farm.hpp"

#include <algorithm>
#include <vector>

#include "growth/alga_day.hpp"
#include "growth/numbers.hpp"
#include "tidelot/growth/farm_box.hpp"

namespace tidelot {
namespace {

constexpr double kSecondsPerDay = 86'400.0;

/// Water past the canopy in a day, as g of nitrogen for each umol/L (= mmol/m3) it carries.
double flow_of_day(const DayForcing& day, const FarmShape& farm) {
  return day.current * farm.depth_m * farm.width_m * kSecondsPerDay * kNitrogenPerMillimole;
}

/// A farm on its way through a season.
class FarmSeason {
 public:
  FarmSeason(const Husbandry& husbandry, const AlgaConstants& constants, const FarmShape& farm)
      : husbandry_(husbandry),
        constants_(constants),
        farm_(farm),
        share_(1.0 / farm.segments),
        crops_(static_cast<std::size_t>(farm.segments),
               Crop1m{husbandry.stocking_g_per_m, constants.q_start}) {}

  void day(const DayForcing& day, std::size_t number, std::size_t days) {
    const double flow = flow_of_day(day, farm_);
    double nitrogen = day.nitrogen;
    double dropped = 0.0;
    SeasonResult sum;
    for (std::size_t i = 0; i < crops_.size(); ++i) {
      Crop1m& crop = crops_[number % 2 == 1 ? i : crops_.size() - 1 - i];
      const double drop = segment(day, flow, nitrogen, crop, number, days, sum);
      dropped += drop;
      nitrogen -= drop;
    }
    result_.taken_up_g += sum.uptake_g_per_m * share_ * farm_.line_m;
    result_.water_lost_g += flow * dropped;
    result_.supply_g += flow * day.nitrogen;
    if (day.nitrogen > 0.0) {
      result_.lowest_share = std::min(result_.lowest_share, nitrogen / day.nitrogen);
    }
    add(sum);
  }

  [[nodiscard]] FarmResult end() {
    subtract_stocking(result_.per_m, husbandry_, constants_);
    return result_;
  }

 private:
  /// One segment's day: grows and cuts its crop; how far it draws the water down.
  double segment(const DayForcing& day, double flow, double inflow, Crop1m& crop,
                 std::size_t number, std::size_t days, SeasonResult& sum) const {
    const AlgaDay grown(day, crop, husbandry_, constants_);
    const double metres = share_ * farm_.line_m;
    const double drop =
        nitrogen_drop(flow, inflow, [&](double c) { return metres * grown.uptake(c); });
    DayTrace trace = grown.end(inflow - drop, crop);
    trace.harvest_g_per_m = cut_of_day(number, days, crop.weight, husbandry_);
    crop.weight -= trace.harvest_g_per_m;
    add_to(sum, trace, constants_.dry_to_fresh);
    return drop;
  }

  void add(const SeasonResult& sum) {
    SeasonResult& mean = result_.per_m;
    mean.yield_g_per_m += share_ * sum.yield_g_per_m;
    mean.nitrogen_g_per_m += share_ * sum.nitrogen_g_per_m;
    mean.uptake_g_per_m += share_ * sum.uptake_g_per_m;
    mean.lost_n_g_per_m += share_ * sum.lost_n_g_per_m;
    mean.harvests += sum.harvests > 0 ? 1 : 0;
  }

  const Husbandry& husbandry_;
  const AlgaConstants& constants_;
  const FarmShape& farm_;
  double share_;
  std::vector<Crop1m> crops_;
  FarmResult result_;
};

}  // namespace

FarmResult grow_farm(std::span<const DayForcing> days, const Husbandry& husbandry,
                     const AlgaConstants& constants, const FarmShape& farm) {
  if (days.empty()) {
    return {};
  }
  FarmSeason season(husbandry, constants, farm);
  for (std::size_t i = 0; i < days.size(); ++i) {
    season.day(days[i], i + 1, days.size());
  }
  return season.end();
}

}  // namespace tidelot
