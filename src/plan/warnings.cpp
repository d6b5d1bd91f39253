// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "plan/bounds.hpp"
#include "plan/read_tables.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::planfile {
namespace {

using Lines = std::vector<std::string>;

bool was_given(const Plan& plan, std::string_view key) {
  return std::any_of(plan.keys.begin(), plan.keys.end(),
                     [&](const ResolvedKey& k) { return k.key == key && k.given; });
}

void tide(const Plan& plan, Lines& out) {
  if (!was_given(plan, "depth.tidal_range_m")) {
    out.push_back(fmt::format(
        "depth.tidal_range_m is not given: a tidal range of {} m is assumed, and the anchor legs "
        "follow from it; set it for your bay",
        shortest(plan.depth.tidal_range_m)));
  }
  if (!was_given(plan, "depth.lowest_tide_m")) {
    out.push_back(fmt::format(
        "depth.lowest_tide_m is not given: a lowest tide of {} m is assumed, and it decides where "
        "gear would ground; set it for your bay",
        shortest(plan.depth.lowest_tide_m)));
  }
}

void datum(const Plan& plan, Lines& out) {
  const auto* low_water = std::get_if<double>(&plan.depth.low_water);
  if (low_water && *low_water != 0.0 && is_low_water_datum(plan.depth.datum)) {
    out.push_back(
        fmt::format("depth.low_water_m: {} m is added to every depth although the datum \"{}\" is "
                    "a low-water one; is that meant?",
                    shortest(*low_water), plan.depth.datum));
  }
  if (low_water && *low_water > 0.0 && !is_low_water_datum(plan.depth.datum)) {
    out.push_back(
        fmt::format("depth.low_water_m: {} m puts low water above the zero of \"{}\" and makes the "
                    "bay deeper; low water below mean sea level takes a negative number",
                    shortest(*low_water), plan.depth.datum));
  }
}

std::vector<const WaterPlan*> nitrogen_plans(const Plan& plan) {
  return plan.nitrate ? std::vector{&*plan.nitrate, &*plan.ammonium} : std::vector{&plan.nitrogen};
}

void constants(const Plan& plan, Lines& out) {
  std::vector<const WaterPlan*> all{&plan.temperature, &plan.salinity, &plan.light};
  const auto nitrogen = nitrogen_plans(plan);
  all.insert(all.end(), nitrogen.begin(), nitrogen.end());
  for (const WaterPlan* water : all) {
    if (std::holds_alternative<double>(water->source)) {
      out.push_back(
          fmt::format("{}: one constant stands for a property of the season: it is the "
                      "same all year and everywhere; twelve monthly values say more",
                      water->key));
    }
  }
}

void nitrogen_unit(const Plan& plan, Lines& out) {
  for (const WaterPlan* water : nitrogen_plans(plan)) {
    const std::string& unit = water->unit;
    const bool mass = unit.find('g') != std::string::npos && unit.find("mol") == std::string::npos;
    if (mass && lower_ascii(unit).find('n') == std::string::npos) {
      out.push_back(
          fmt::format("{0}.unit: \"{1}\" is taken as the mass of nitrogen (as N), not of the ion; "
                      "write \"{1} as N\", or as NO3, as NH4",
                      water->key, unit));
    }
  }
}

void rules(const Plan& plan, Lines& out) {
  for (std::size_t i = 0; i < plan.closed.size(); ++i) {
    if (plan.closed[i].rule.empty()) {
      out.push_back(
          fmt::format("{} has no rule text; reports print \"no rule given\" (authority, section, "
                      "date)",
                      table_called("closed", i, plan.closed[i].name)));
    }
  }
}

void dry_line(const Plan& plan, Lines& out) {
  if (plan.farm.fixed_line && plan.farm.line_depth_m + plan.depth.lowest_tide_m < 0.0) {
    out.push_back(fmt::format(
        "farm.line_depth_m: a fixed line {} m below low water comes out of the water at "
        "the lowest tide ({} m from low water); the crop would dry, which is not "
        "counted; hang it deeper or let it float",
        shortest(plan.farm.line_depth_m), shortest(plan.depth.lowest_tide_m)));
  }
}

void line_gap(const Plan& plan, Lines& out) {
  constexpr double kTightest = 6.0;  // permitted kelp farms: 6 to 17 m between lines (published)
  if (plan.farm.line_gap_m < kTightest) {
    out.push_back(
        fmt::format("farm.line_gap_m: {} m is tighter than any permit seen (published: 6 "
                    "m and more); figures per hectare may not be had",
                    shortest(plan.farm.line_gap_m)));
  }
}

/// The shallowest water that gear clears leaves the longest line; where that is none, no site can
/// hold one.
void usable_line(const Plan& plan, Lines& out) {
  const FarmPlan& farm = plan.farm;
  const double shallowest = farm.clearance_m + farm.line_depth_m + farm.sag_m + farm.hang_m -
                            gear_sinks_to_m(farm, plan.depth.lowest_tide_m) +
                            plan.depth.tidal_range_m;
  const double length = std::sqrt(plan.sites.area_ha * 10000.0 * plan.sites.length_to_width);
  const double usable = length - 2.0 * farm.margin_m - 2.0 * farm.scope * shallowest;
  if (!plan.sites.line && usable <= 0.0) {
    out.push_back(
        fmt::format("sites.area_ha: a site {} m long has no room for a line between its "
                    "margins and anchor legs, even in the shallowest water that gear "
                    "clears",
                    fixed(length, 0)));
  }
}

void cell_size(const Plan& plan, Lines& out) {
  const double width = std::sqrt(plan.sites.area_ha * 10000.0 / plan.sites.length_to_width);
  if (!plan.sites.line && plan.area.cell_m > width) {
    out.push_back(
        fmt::format("area.cell_m: a cell of {} m is wider than a site ({} m); sites are "
                    "placed no finer than cells",
                    shortest(plan.area.cell_m), fixed(width, 1)));
  }
}

void landing(const Plan& plan, Lines& out) {
  if (!plan.sites.landing || !plan.area.has_bounds || in_bounds(plan.area, *plan.sites.landing)) {
    return;
  }
  const std::string_view slip = likely_slip(plan.area, *plan.sites.landing);
  out.push_back(fmt::format("sites.landing lies outside area.bounds; {}",
                            slip.empty() ? "the way to it over water can't be found" : slip));
}

void draws(const Plan& plan, Lines& out) {
  constexpr int kFew = 20;
  const int count = plan.uncertainty.draws;
  if (count > 0 && count < kFew) {
    out.push_back(fmt::format(
        "uncertainty.draws = {} tells little of a spread: P10 and P90 are near its very ends; take "
        "59 or more",
        count));
  }
}

/// A mark may lie outside of the map; one that would lie in it but for a slip is named.
void marks(const Plan& plan, Lines& out) {
  for (const MarkPlan& mark : plan.report.marks) {
    if (!plan.area.has_bounds || in_bounds(plan.area, mark.at)) {
      continue;
    }
    if (const std::string_view slip = likely_slip(plan.area, mark.at); !slip.empty()) {
      out.push_back(fmt::format("report.marks: {}: {}", mark.name, slip));
    }
  }
}

void load(const Plan& plan, Lines& out) {
  if (plan.load && (plan.load->kind.empty() || !plan.load->year)) {
    out.emplace_back(
        "load: a share of it says little without its kind (total or dissolved, at "
        "source or delivered, all sources or some) and year");
  }
}

void labels(const Plan& plan, Lines& out) {
  const Labels& all = *plan.report.labels;
  if (all.left_out() > 0) {
    out.push_back(fmt::format("report.labels: {} of {} labels are left out; those stay English",
                              all.left_out(), all.all().size()));
  }
}

}  // namespace

std::vector<std::string> plan_warnings(const Plan& plan) {
  Lines out;
  for (const auto look : {tide, datum, constants, nitrogen_unit, rules, dry_line, line_gap,
                          usable_line, cell_size, landing, draws, load, marks, labels}) {
    look(plan, out);
  }
  return out;
}

}  // namespace tidelot::planfile
