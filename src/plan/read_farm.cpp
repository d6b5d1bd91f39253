// SPDX-License-Identifier: Apache-2.0
// [season], [farm], [waves], [sites] and [uncertainty]: how the crop is kept, and what is asked.
#include <fmt/format.h>

#include "plan/bounds.hpp"
#include "plan/read_tables.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::planfile {
namespace {

void refuse_cutting_back(const Section& farm, const Crop& crop) {
  if (farm.given("stocking_g_per_m")) {
    farm.fail("stocking_g_per_m",
              fmt::format("has no meaning for {}, which is stocked by the frond; take it out and "
                          "set fronds_per_m and start_area in [crop.set]",
                          crop.name));
  }
  if (farm.given("harvest_days")) {
    farm.fail("harvest_days",
              fmt::format("has no meaning for {}, which is hauled once, on the last day; take it "
                          "out",
                          crop.name));
  }
}

/// Beyond the bounds nothing is read.
void check_in_bounds(const Section& sites, const AreaPlan& area,
                     const std::vector<std::array<LonLat, 4>>& boxes) {
  for (std::size_t box = 0; area.has_bounds && box < boxes.size(); ++box) {
    for (std::size_t i = 0; i < boxes[box].size(); ++i) {
      const LonLat at = boxes[box][i];
      if (in_bounds(area, at)) {
        continue;
      }
      const std::string_view slip = likely_slip(area, at);
      sites.fail("own_corners",
                 fmt::format("has corner {} of box {} ({}, {}) outside of area.bounds; {}", i + 1,
                             box + 1, shortest(at.lon), shortest(at.lat),
                             slip.empty() ? "move it, or widen the bounds" : slip));
    }
  }
}

}  // namespace

SeasonPlan read_season(Reading& reading) {
  Section season(reading, "season");
  if (season.given("gear_in") != season.given("gear_out")) {
    const bool has_in = season.given("gear_in");
    season.fail(has_in ? "gear_in" : "gear_out",
                has_in ? "stands alone; add gear_out, or take both out"
                       : "stands alone; add gear_in, or take both out");
  }
  SeasonPlan out;
  out.gear_in = season.maybe_day("gear_in");
  out.gear_out = season.maybe_day("gear_out");
  out.daily =
      season.text("daily") == "linear" ? SeasonPlan::Daily::linear : SeasonPlan::Daily::mean;
  return out;
}

FarmPlan read_farm(Reading& reading, const Crop& crop) {
  Section farm(reading, "farm");
  const bool cut_back = crop.model == GrowthModel::fragmenting_alga;
  if (!cut_back) {
    refuse_cutting_back(farm, crop);
  }
  FarmPlan out;
  out.fixed_line = farm.text("line") == "fixed";
  out.line_depth_m = farm.number("line_depth_m");
  out.line_gap_m = farm.number("line_gap_m");
  out.margin_m = farm.number("margin_m");
  out.scope = farm.number("scope");
  out.sag_m = farm.number("sag_m");
  out.hang_m = farm.number("hang_m");
  out.clearance_m = farm.number("clearance_m");
  if (cut_back) {
    out.stocking_g_per_m = farm.number("stocking_g_per_m");
  }
  out.bundle_m = farm.number("bundle_m");
  if (cut_back) {
    out.harvest_days = static_cast<int>(farm.whole("harvest_days"));
  }
  out.outplant = farm.maybe_day("outplant");
  out.last_haul = farm.maybe_day("last_haul");
  out.food = farm.text("use") == "food";
  out.max_depth_m = farm.maybe_number("max_depth_m");
  out.max_wave_m = farm.maybe_number("max_wave_m");
  out.max_current_m_s = farm.maybe_number("max_current_m_s");
  if (out.max_wave_m && !reading.root.contains("waves")) {
    farm.fail("max_wave_m",
              "needs [waves] winds; without wind there is no wave to hold against it");
  }
  return out;
}

std::optional<WavesPlan> read_waves(Reading& reading) {
  if (!reading.root.contains("waves")) {
    return std::nullopt;
  }
  Section waves(reading, "waves");
  WavesPlan out;
  out.winds = waves.file("winds");
  out.winds_height_m = waves.number("winds_height_m");
  out.form = waves.text("form") == "shore_protection" ? WaveForm::shore_protection
                                                      : WaveForm::young_verhagen;
  out.directions = static_cast<int>(waves.whole("directions"));
  out.open_km = waves.number("open_km");
  out.working_limit_m = waves.number("working_limit_m");
  return out;
}

SitesPlan read_sites(Reading& reading) {
  Section sites(reading, "sites");
  SitesPlan out;
  out.count = static_cast<int>(sites.whole("count"));
  out.line = sites.text("shape") == "line";
  out.area_ha = sites.number("area_ha");
  out.length_to_width = sites.number("length_to_width");
  static_cast<void>(sites.text("along"));  // one word so far; recorded
  out.gap_m = sites.number("gap_m");
  out.min_suitability = sites.number("min_suitability");
  if (sites.given("landing")) {
    const std::vector<double> at = sites.numbers("landing");
    out.landing = LonLat{at[0], at[1]};
  }
  out.draft_m = sites.number("draft_m");
  if (sites.given("own_corners")) {
    out.own_boxes = sites.boxes("own_corners");
    check_in_bounds(sites, reading.plan.area, out.own_boxes);
  }
  return out;
}

UncertaintyPlan read_uncertainty(Reading& reading) {
  Section uncertainty(reading, "uncertainty");
  UncertaintyPlan out;
  out.draws = static_cast<int>(uncertainty.whole("draws"));
  out.seed = static_cast<std::uint64_t>(uncertainty.whole("seed"));
  out.length_m = uncertainty.maybe_number("length_m");
  return out;
}

}  // namespace tidelot::planfile
