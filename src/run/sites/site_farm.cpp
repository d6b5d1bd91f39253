// SPDX-License-Identifier: Apache-2.0
#include "run/sites/site_farm.hpp"

#include <algorithm>
#include <array>
#include <variant>

#include "run/sites/site_centre.hpp"
#include "run/sites/site_neighbours.hpp"
#include "run/workers.hpp"
#include "tidelot/criteria/suitability.hpp"

namespace tidelot::run {
namespace {

constexpr double kLeastDepth_m = 0.5;
constexpr int kTwoWeeks = 14;
constexpr std::array kLineDepths_m{0.5, 1.0, 1.5, 2.0, 3.0, 4.0};
constexpr std::array kStockings_g_per_m{50.0, 100.0, 200.0, 400.0};
constexpr std::array kFronds_per_m{20.0, 40.0, 80.0, 150.0};
constexpr std::array kHarvestDays{7, 10, 14, 21, 28};

/// How a season is kept, and when.
struct Kept {
  Husbandry husbandry;
  CropModel model;
  SeasonWindow window;

  [[nodiscard]] Stocked stocked() const { return tidelot::stocked(husbandry, model); }
};

/// One site's centre with all that its seasons need.
class SiteFarm {
 public:
  SiteFarm(Site& site, const CentreWater& water, const Plan& plan, const SeasonSetup& setup)
      : site_(site),
        water_(water),
        plan_(plan),
        setup_(setup),
        shape_(farm_shape(site.layout, plan.farm, setup.constants())),
        as_planned_{setup.husbandry(), setup.constants(), water.forcing.windows[0]} {}

  void add() {
    if (as_planned_.window.days() < 1) {
      site_.no_draw_down = "no season at the centre";
      return;
    }
    alone_ = grow_season(days_in(water_, as_planned_.window, setup_), as_planned_.husbandry,
                         as_planned_.model);
    const FarmResult farm = grow(as_planned_);
    planned_ = choice(Choice::Of::line_depth, 0.0, as_planned_, farm);
    site_.yield_t = planned_.yield_t;
    site_.nitrogen_kg = planned_.nitrogen_kg;
    site_.draw_down = DrawDown{farm.lowest_share, farm.supply_g / 1000.0, farm.taken_up_g / 1000.0};
    site_.no_draw_down.clear();
    add_line_depths();
    if (std::holds_alternative<AlgaConstants>(as_planned_.model)) {
      add_stockings();
      add_harvest_days();
    } else {
      add_fronds();
    }
    add_seasons();
  }

 private:
  [[nodiscard]] FarmResult grow(const Kept& kept) const {
    return grow_farm(days_in(water_, kept.window, setup_), kept.husbandry, kept.model, shape_);
  }

  /// The site's figures for a season: the maps' mean over its cells, changed as the centre changes.
  [[nodiscard]] Choice choice(Choice::Of of, double value, const Kept& kept,
                              const FarmResult& farm) const {
    const SiteFigures figures =
        site_figures(per_metre(site_), site_.layout.line_m, {alone_, as_planned_.stocked()},
                     {farm.per_m, kept.stocked()});
    Choice out;
    out.of = of;
    out.value = value;
    out.outplant = wrapped_day(kept.window.outplant);
    out.last_haul = wrapped_day(kept.window.last_haul);
    out.yield_t = figures.yield_t;
    out.nitrogen_kg = figures.nitrogen_kg;
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
        change(kept, value);
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
               [](Kept& k, double value) { k.husbandry.line_depth_m = value; });
  }
  void add_stockings() {
    add_values(Choice::Of::stocking, kStockings_g_per_m, plan_.farm.stocking_g_per_m,
               [](Kept& k, double value) { k.husbandry.stocking_g_per_m = value; });
  }
  void add_harvest_days() {
    add_values(Choice::Of::harvest_days, kHarvestDays, plan_.farm.harvest_days,
               [](Kept& k, double value) { k.husbandry.harvest_days = static_cast<int>(value); });
  }
  void add_fronds() {
    add_values(
        Choice::Of::fronds, kFronds_per_m, std::get<KelpConstants>(as_planned_.model).fronds_per_m,
        [](Kept& k, double value) { std::get<KelpConstants>(k.model).fronds_per_m = value; });
  }

  [[nodiscard]] Kept in(const SeasonWindow& window) const {
    Kept kept = as_planned_;
    kept.window = window;
    return kept;
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
      offer(Choice::Of::season, 0.0, in(water));
    }
    if (planned.days() > kTwoWeeks) {
      SeasonWindow later = planned;
      later.outplant += kTwoWeeks;
      offer(Choice::Of::season, 0.0, in(later));
      SeasonWindow earlier = planned;
      earlier.last_haul -= kTwoWeeks;
      offer(Choice::Of::season, 0.0, in(earlier));
    }
  }

  Site& site_;
  const CentreWater& water_;
  const Plan& plan_;
  const SeasonSetup& setup_;
  FarmShape shape_;
  Kept as_planned_;
  SeasonResult alone_;  ///< one line in water that it does not change
  Choice planned_;
};

/// The water at a site's centre; none, with the reason in the site, where it is not known.
std::optional<CentreWater> water_at(Site& site, const SeasonSetup& setup, LayerSet& layers) {
  if (site.layout.lines == 0) {
    site.no_draw_down = "it holds no line";
    return std::nullopt;
  }
  const auto here = centre_layers(site, layers);
  if (!here) {
    site.no_draw_down = "the water at the centre is not known";
    return std::nullopt;
  }
  return CentreWater{cell_forcing(*here, site.centre.lat, setup), site.centre.lat};
}

}  // namespace

PerMetre per_metre(const Site& site) { return {site.yield_kg_per_m, site.nitrogen_g_per_m}; }

FarmShape farm_shape(const Layout& layout, const FarmPlan& farm, const CropModel& model) {
  const auto [width, height] = std::visit(
      [](const auto& k) { return std::pair(k.canopy_width_m, k.canopy_height_m); }, model);
  FarmShape shape;
  shape.line_m = layout.line_m;
  shape.width_m = std::max(0, layout.lines - 1) * farm.line_gap_m + width;
  shape.depth_m = std::max(kLeastDepth_m, height);
  return shape;
}

std::vector<DayForcing> days_in(const CentreWater& water, const SeasonWindow& window,
                                const SeasonSetup& setup) {
  TileForcing forcing = water.forcing;
  forcing.kernel.outplant[0] = window.outplant;
  forcing.kernel.last_haul[0] = window.last_haul;
  return day_forcing(forcing, 0, water.latitude_deg, setup);
}

SiteFigures site_figures(PerMetre mean, double line_m, const Grown& alone, const Grown& here) {
  // Of a crop that is lost to the last gram there is nothing to change.
  const auto ratio = [](double now, double before) { return before > 0.0 ? now / before : 1.0; };
  const double fresh_g = (1000.0 * mean.yield_kg + alone.stocked.fresh_g_per_m) *
                             ratio(here.fresh_g(), alone.fresh_g()) -
                         here.stocked.fresh_g_per_m;
  const double nitrogen_g = (mean.nitrogen_g + alone.stocked.nitrogen_g_per_m) *
                                ratio(here.nitrogen_g(), alone.nitrogen_g()) -
                            here.stocked.nitrogen_g_per_m;
  return {line_m * fresh_g / 1e6, line_m * nitrogen_g / 1e3};
}

void add_farm(Site& site, const CentreWater& water, const Plan& plan, const SeasonSetup& setup) {
  SiteFarm(site, water, plan, setup).add();
}

void add_farms(SitesResult& sites, const Plan& plan, const Area& area, int threads,
               const std::atomic<int>* stop_signal) {
  const SeasonSetup setup(plan);
  const std::unique_ptr<LayerSet> layers = area.layers->clone();
  std::vector<SiteWater> known;  // the ranked ones first
  std::ptrdiff_t ranked = 0;
  for (std::vector<Site>* list : {&sites.ranked, &sites.apart}) {
    for (Site& site : *list) {
      if (auto water = water_at(site, setup, *layers)) {
        known.push_back({&site, std::move(*water)});
        ranked += list == &sites.ranked ? 1 : 0;
      }
    }
  }
  for_each(known.size(), workers_for(threads), stop_signal,
           [&](std::size_t i, int) { add_farm(*known[i].site, known[i].water, plan, setup); });
  known.erase(known.begin() + ranked, known.end());
  std::erase_if(known, [](const SiteWater& one) { return !one.site->draw_down; });  // no season
  add_neighbours(known, plan, setup);
}

}  // namespace tidelot::run
