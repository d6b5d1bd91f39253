// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>

#include "cli/commands.hpp"
#include "cli/print.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/run.hpp"

namespace tidelot::cli {
namespace {

std::string number(double value) {
  return std::isnan(value) ? "not known" : fmt::format("{:.4g}", value);
}

std::string csv_row(DayOfYear day, const DayTrace& d) {
  std::string row = format_month_day(day);
  const DayForcing& f = d.forcing;
  for (const double value :
       {f.temperature, f.salinity, f.attenuation, f.nitrogen, f.par_mol, f.day_length_h,
        d.f_temperature, d.f_salinity, d.f_light, d.f_nitrogen, d.f_density, d.growth_per_day,
        d.biomass_g_per_m, d.tissue_n, d.harvest_g_per_m}) {
    row += "," + shortest(value);
  }
  return row + "\n";
}

int print_csv(const Explanation& e) {
  print(
      "date,temperature,salinity,kd,nitrogen,par,day_length_h,f_temperature,f_salinity,f_light,"
      "f_nitrogen,f_density,growth_per_day,biomass_g_per_m,tissue_n,harvest_g_per_m\n");
  for (std::size_t i = 0; i < e.growth.days.size(); ++i) {
    print(csv_row(e.season.outplant + static_cast<int>(i), e.growth.days[i]));
  }
  if (e.growth.days.empty()) {
    std::fprintf(stderr, "tidelot: no season at this place: %s\n", e.reason.c_str());
  }
  return 0;
}

std::string window_text(const SeasonWindow& w) {
  switch (w.state) {
    case SeasonState::too_cold:
      return "none: the water is too cold";
    case SeasonState::too_hot:
      return "none: the water is too hot";
    case SeasonState::outside_gear:
      return "none inside the gear dates";
    case SeasonState::grows:
      break;
  }
  return fmt::format("{} to {} ({} days)", format_month_day(w.outplant),
                     format_month_day(w.last_haul), w.days());
}

void print_verdict(const Plan& plan, const Explanation& e) {
  print(fmt::format("{}\nPlace  {}, {}; cell column {}, row {}, centre {}, {}\n", plan.title,
                    fixed(e.at.lon, 6), fixed(e.at.lat, 6), e.cell.col, e.cell.row,
                    fixed(e.cell_centre.lon, 6), fixed(e.cell_centre.lat, 6)));
  print(
      fmt::format("Depth at low water  {} m ({})\n", number(e.depth_low_water), plan.depth.datum));
  print(fmt::format("Suitability  {}\nHeld back most by  {}\n", number(e.score.suitability),
                    e.reason));
  for (std::size_t i = 0; i < plan.criteria.size() && i < e.criterion_scores.size(); ++i) {
    print(fmt::format("  {:<10} score {} (weight {})\n", plan.criteria[i].name,
                      number(e.criterion_scores[i]), shortest(plan.criteria[i].weight)));
  }
}

/// "closed", "caution: here", "open": what a rule means for the cell.
std::string effect_of(const ClosedPlan& rule, int index, const RuleDistance& distance,
                      const Explanation& e) {
  if (rule.caution) {
    return distance.distance_m <= rule.setback_m ? "caution" : "-";
  }
  const bool closes = ((e.evidence.rules >> (closed_bit::kFirstRule + index)) & 1U) != 0;
  return closes ? "closed here" : "-";
}

void print_rules(const Plan& plan, const Explanation& e) {
  std::vector<std::vector<std::string>> rows{
      {"rule", "effect", "setback m", "distance m", "bearing", "authority"}};
  for (const RuleDistance& d : e.rules) {
    const ClosedPlan& rule = plan.closed[static_cast<std::size_t>(d.rule)];
    rows.push_back({rule.name, effect_of(rule, d.rule, d, e), shortest(rule.setback_m),
                    fixed(d.distance_m, 1),
                    d.distance_m > 0.0 ? fixed(d.bearing_deg, 0) + "\u00b0" : "inside",
                    rule.rule.empty() ? "no rule given" : rule.rule});
  }
  print(rows.size() > 1 ? "\n" + table(rows) : "\nNo rule of the plan has a shape near here.\n");
}

void print_season(const Explanation& e) {
  if (!e.grown) {
    print("\nNo season was grown here.\n");
    return;
  }
  print(fmt::format("\nSeason  {}\n        by the water alone: {}\n", window_text(e.season),
                    window_text(e.water_season)));
  if (e.growth.days.empty()) {
    return;
  }
  const SeasonResult& g = e.growth;
  print(fmt::format("Net yield  {} kg fresh weight per metre of longline, {} harvests\n",
                    number(g.yield_g_per_m / 1000.0), g.harvests));
  print(
      fmt::format("Nitrogen   {} g carried off per metre; {} g taken up, {} g lost with "
                  "breakage\n\n",
                  number(g.nitrogen_g_per_m), number(g.uptake_g_per_m), number(g.lost_n_g_per_m)));
  std::vector<std::vector<std::string>> rows{
      {"date", "temp", "sal", "Kd", "N", "fT", "fS", "fI", "fQ", "fD", "g/m", "%N", "cut g/m"}};
  for (std::size_t i = 0; i < g.days.size(); ++i) {
    const DayTrace& d = g.days[i];
    rows.push_back({format_month_day(e.season.outplant + static_cast<int>(i)),
                    fixed(d.forcing.temperature, 1), fixed(d.forcing.salinity, 1),
                    fixed(d.forcing.attenuation, 2), fixed(d.forcing.nitrogen, 1),
                    fixed(d.f_temperature, 2), fixed(d.f_salinity, 2), fixed(d.f_light, 2),
                    fixed(d.f_nitrogen, 2), fixed(d.f_density, 2), fixed(d.biomass_g_per_m, 1),
                    fixed(100.0 * d.tissue_n, 2), fixed(d.harvest_g_per_m, 1)});
  }
  print(table(rows));
}

double part(std::string_view text, const std::string& whole) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) {
    throw Error(Fault::plan, "--at " + whole +
                                 ": is not a place; write longitude,latitude in degrees, "
                                 "for example --at -30.05,41.03");
  }
  return value;
}

}  // namespace

LonLat parse_lonlat(const std::string& text) {
  const std::size_t comma = text.find(',');
  const std::string_view view(text);
  const LonLat place{part(view.substr(0, comma), text),
                     part(comma == std::string::npos ? "" : view.substr(comma + 1), text)};
  if (std::abs(place.lon) > 360.0 || std::abs(place.lat) > 90.0) {
    throw Error(Fault::plan, "--at " + text +
                                 ": latitude beyond 90 or longitude beyond 360; the longitude "
                                 "comes first");
  }
  return place;
}

int explain(const std::string& path, LonLat at, bool csv) {
  const Plan plan = read_plan(path);
  const Explanation e = tidelot::explain(plan, at);
  if (csv) {
    return print_csv(e);
  }
  print_verdict(plan, e);
  print_rules(plan, e);
  print_season(e);
  for (const std::string& warning : e.warnings) {
    print("warning: " + warning + "\n");
  }
  return 0;
}

}  // namespace tidelot::cli
