// SPDX-License-Identifier: Apache-2.0
#include "run/site_farm.hpp"

#include <algorithm>
#include <array>
#include <variant>

#include "run/site_centre.hpp"
#include "run/workers.hpp"
#include "tidelot/criteria/suitability.hpp"

namespace tidelot::run {
namespace {

constexpr double kLeastDepth_m = 0.5;
constexpr int kTwoWeeks = 14;
constexpr std::array kLineDepths_m{0.5, 1.0, 1.5, 2.0, 3.0, 4.0};
constexpr std::array kStockings_g_per_m{50.0, 100.0, 200.0, 400.0};
constexpr std::array kHarvestDays{7, 10, 14, 21, 28};

/// How a season is kept, and when.
struct Kept {
  Husbandry husbandry;
  SeasonWindow window;
};

/// Fresh weight and nitrogen hauled per metre, what was stocked not taken off.
struct Gross {
  double fresh_g;
  double nitrogen_g;
};

/// One site's centre with all that its seasons need.
class SiteFarm {
 public:
  SiteFarm(Site& site, const CentreWater& water, const Plan& plan, const SeasonSetup& setup,
           const AlgaConstants& constants)
      : site_(site),
        water_(water),
        plan_(plan),
        setup_(setup),
        constants_(constants),
        shape_(farm_shape(site.layout, plan.farm, constants)),
        as_planned_{setup.husbandry(), water.forcing.windows[0]} {}

  void add() {
    if (as_planned_.window.days() < 1) {
      site_.no_draw_down = "no season at the centre";
      return;
    }
    const Husbandry& husbandry = as_planned_.husbandry;
    base_ = gross(grow_season(days(as_planned_.window), husbandry, constants_), husbandry);
    const FarmResult farm = grow(as_planned_);
    planned_ = choice(Choice::Of::line_depth, 0.0, as_planned_, farm);
    site_.yield_t = planned_.yield_t;
    site_.nitrogen_kg = planned_.nitrogen_kg;
    site_.draw_down = DrawDown{farm.lowest_share, farm.supply_g / 1000.0, farm.taken_up_g / 1000.0};
    site_.no_draw_down.clear();
    add_line_depths();
    add_stockings();
    add_harvest_days();
    add_seasons();
  }

 private:
  [[nodiscard]] std::vector<DayForcing> days(const SeasonWindow& window) const {
    TileForcing forcing = water_.forcing;
    forcing.kernel.outplant[0] = window.outplant;
    forcing.kernel.last_haul[0] = window.last_haul;
    return day_forcing(forcing, 0, water_.latitude_deg, setup_);
  }

  [[nodiscard]] FarmResult grow(const Kept& kept) const {
    return grow_farm(days(kept.window), kept.husbandry, constants_, shape_);
  }

  [[nodiscard]] double stocked_nitrogen(const Husbandry& husbandry) const {
    return husbandry.stocking_g_per_m * constants_.dry_to_fresh * constants_.q_start;
  }

  [[nodiscard]] Gross gross(const SeasonResult& season, const Husbandry& husbandry) const {
    return {season.yield_g_per_m + husbandry.stocking_g_per_m,
            season.nitrogen_g_per_m + stocked_nitrogen(husbandry)};
  }

  /// The site's figures for a season: the maps' mean over its cells, changed as the centre changes.
  [[nodiscard]] Choice choice(Choice::Of of, double value, const Kept& kept,
                              const FarmResult& farm) const {
    const Gross here = gross(farm.per_m, kept.husbandry);
    const Husbandry& planned = as_planned_.husbandry;
    const double fresh_g = (1000.0 * site_.yield_kg_per_m + planned.stocking_g_per_m) *
                               (here.fresh_g / base_.fresh_g) -
                           kept.husbandry.stocking_g_per_m;
    const double nitrogen_g = (site_.nitrogen_g_per_m + stocked_nitrogen(planned)) *
                                  (here.nitrogen_g / base_.nitrogen_g) -
                              stocked_nitrogen(kept.husbandry);
    Choice out;
    out.of = of;
    out.value = value;
    out.outplant = wrapped_day(kept.window.outplant);
    out.last_haul = wrapped_day(kept.window.last_haul);
    out.yield_t = site_.layout.line_m * fresh_g / 1e6;
    out.nitrogen_kg = site_.layout.line_m * nitrogen_g / 1e3;
    out.harvests = farm.per_m.harvests;
    return out;
  }

  void offer(Choice::Of of, double value, const Kept& kept) {
    site_.choices.push_back(choice(of, value, kept, grow(kept)));
  }

  void offer_planned(Choice::Of of, double value) {
    Choice& as_planned = site_.choices.emplace_back(planned_);
    as_planned.of = of;
    as_planned.value = value;
    as_planned.plan = true;
  }

  /// The listed values and the plan's own, in order; change(value) says how the crop is then kept.
  template <typename Values, typename Change>
  void add_values(Choice::Of of, const Values& listed, double planned, const Change& change) {
    std::vector<double> values(listed.begin(), listed.end());
    values.push_back(planned);
    std::sort(values.begin(), values.end());
    values.erase(std::unique(values.begin(), values.end()), values.end());
    for (const double value : values) {
      if (value == planned) {
        offer_planned(of, value);
      } else if (of != Choice::Of::line_depth || clears(value)) {
        Kept kept = as_planned_;
        change(kept.husbandry, value);
        offer(of, value, kept);
      }
    }
  }

  /// Does gear at this depth clear the bottom of the shallowest covered cell at the lowest tide,
  /// and stay in the water?
  [[nodiscard]] bool clears(double line_depth_m) const {
    FarmPlan farm = plan_.farm;
    farm.line_depth_m = line_depth_m;
    if (farm.fixed_line && line_depth_m + plan_.depth.lowest_tide_m < 0.0) {
      return false;  // it would come out of the water
    }
    return gear_clears(site_.depth_min_m, plan_.depth.lowest_tide_m, farm);
  }

  void add_line_depths() {
    add_values(Choice::Of::line_depth, kLineDepths_m, plan_.farm.line_depth_m,
               [](Husbandry& h, double value) { h.line_depth_m = value; });
  }
  void add_stockings() {
    add_values(Choice::Of::stocking, kStockings_g_per_m, plan_.farm.stocking_g_per_m,
               [](Husbandry& h, double value) { h.stocking_g_per_m = value; });
  }
  void add_harvest_days() {
    add_values(Choice::Of::harvest_days, kHarvestDays, plan_.farm.harvest_days,
               [](Husbandry& h, double value) { h.harvest_days = static_cast<int>(value); });
  }

  /// The plan's season, the water's own inside the gear dates where the plan gives another, and two
  /// weeks less at either end: never outside the gear dates.
  void add_seasons() {
    const SeasonWindow& planned = as_planned_.window;
    offer_planned(Choice::Of::season, 0.0);
    WindowRules rules = setup_.rules();
    rules.outplant.reset();
    rules.last_haul.reset();
    const SeasonWindow water =
        season_window(nodes_at(water_.forcing.kernel.temperature, 1, 0), rules);
    if (water.days() > 0 &&
        (water.outplant != planned.outplant || water.last_haul != planned.last_haul)) {
      offer(Choice::Of::season, 0.0, {as_planned_.husbandry, water});
    }
    if (planned.days() > kTwoWeeks) {
      SeasonWindow later = planned;
      later.outplant += kTwoWeeks;
      offer(Choice::Of::season, 0.0, {as_planned_.husbandry, later});
      SeasonWindow earlier = planned;
      earlier.last_haul -= kTwoWeeks;
      offer(Choice::Of::season, 0.0, {as_planned_.husbandry, earlier});
    }
  }

  Site& site_;
  const CentreWater& water_;
  const Plan& plan_;
  const SeasonSetup& setup_;
  const AlgaConstants& constants_;
  FarmShape shape_;
  Kept as_planned_;
  Gross base_{};
  Choice planned_;
};

/// The water at a site's centre; none, with the reason in the site, where it is not known.
std::optional<CentreWater> water_at(Site& site, const SeasonSetup& setup, LayerSet& layers) {
  const auto here = centre_layers(site, setup, layers);
  if (!here) {
    site.no_draw_down = "the water at the centre is not known";
    return std::nullopt;
  }
  return CentreWater{cell_forcing(*here, site.centre.lat, setup), site.centre.lat};
}

}  // namespace

FarmShape farm_shape(const Layout& layout, const FarmPlan& farm, const AlgaConstants& constants) {
  FarmShape shape;
  shape.line_m = layout.line_m;
  shape.width_m = std::max(0, layout.lines - 1) * farm.line_gap_m + constants.canopy_width_m;
  shape.depth_m = std::max(kLeastDepth_m, constants.canopy_height_m);
  return shape;
}

void add_farm(Site& site, const CentreWater& water, const Plan& plan, const SeasonSetup& setup,
              const AlgaConstants& constants) {
  SiteFarm(site, water, plan, setup, constants).add();
}

void add_farms(SitesResult& sites, const Plan& plan, const Area& area, int threads,
               const std::atomic<int>* stop_signal) {
  const SeasonSetup setup(plan);
  const AlgaConstants* constants = std::get_if<AlgaConstants>(&setup.constants());
  const std::unique_ptr<LayerSet> layers = area.layers->clone();
  std::vector<std::pair<Site*, CentreWater>> known;
  for (std::vector<Site>* list : {&sites.ranked, &sites.apart}) {
    for (Site& site : *list) {
      if (constants == nullptr) {
        site.no_draw_down = "not computed for this crop";
      } else if (auto water = water_at(site, setup, *layers)) {
        known.emplace_back(&site, std::move(*water));
      }
    }
  }
  for_each(known.size(), workers_for(threads), stop_signal, [&](std::size_t i, int) {
    add_farm(*known[i].first, known[i].second, plan, setup, *constants);
  });
}

}  // namespace tidelot::run
