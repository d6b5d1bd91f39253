// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "cli/explain_parts.hpp"
#include "cli/print.hpp"
#include "report/words/cautions.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/calendar.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/criterion_kind.hpp"
#include "tidelot/growth/crop_model.hpp"
#include "tidelot/growth/limits.hpp"

namespace tidelot::cli {
namespace {

constexpr std::size_t kWidth = 98;
constexpr std::size_t kIndent = 12;
constexpr std::size_t kMostRules = 12;
constexpr std::size_t kSparkColumns = 60;

std::string number(double value) {
  return std::isnan(value) ? "not known" : fmt::format("{:.4g}", value);
}

/// A label and what belongs to it, wrapped beside it.
std::string line(std::string_view label, std::string_view text) {
  return wrapped(fmt::format("{:<{}}{}", label, kIndent, text), kWidth, kIndent) + "\n";
}

std::string window_text(const SeasonWindow& w) {
  switch (w.state) {
    case SeasonState::too_cold:
      return "none, the water is too cold";
    case SeasonState::too_hot:
      return "none, the water is too warm";
    case SeasonState::outside_gear:
      return "none inside the gear dates";
    case SeasonState::grows:
      break;
  }
  return fmt::format("{} to {} ({} days)", format_month_day(w.outplant),
                     format_month_day(w.last_haul), w.days());
}

/// At low and at high water, from which zero, and out of which file.
std::string depth_text(const Plan& plan, const Explanation& e) {
  if (std::isnan(e.depth_low_water)) {
    return fmt::format("not known ({})", plan.depth.datum);
  }
  const double high = e.depth_low_water + plan.depth.tidal_range_m;
  return fmt::format("{} m at low water, {} m at high water ({}); from {}",
                     number(e.depth_low_water), number(high), plan.depth.datum, e.depth_source);
}

/// Of the bed, where a criterion of the plan looks at it.
std::string slope(const Plan& plan, const Explanation& e) {
  if (!scores(plan, CriterionKind::slope)) {
    return "";
  }
  const double degrees = e.evidence.slope_deg;
  return line("Slope", std::isnan(degrees) ? "of the bed not known"
                                           : fixed(degrees, 1) + " degrees, of the bed");
}

/// Heights, and how the water moves at the line and at the bed in the highest sea at high water.
std::string waves(const Plan& plan, const Explanation& e) {
  if (!e.waves) {
    return "";
  }
  const PlaceWaves& w = *e.waves;
  return line(
      "Waves",
      fmt::format("significant height once in 50 years {} m (period {} s), once a year {} m; "
                  "above {} m for {} % of the time. In the highest the water moves {} m/s at "
                  "the line, {} m/s at the bed",
                  fixed(w.height_50y_m, 2), fixed(w.period_50y_s, 1), fixed(w.height_1y_m, 2),
                  shortest(plan.waves->working_limit_m), fixed(100.0 * w.share_above, 1),
                  fixed(w.at_line_m_s, 2), fixed(w.at_bed_m_s, 2)));
}

std::string verdict(const Plan& plan, const Explanation& e) {
  std::vector<std::string> scores;
  for (std::size_t i = 0; i < plan.criteria.size() && i < e.criterion_scores.size(); ++i) {
    scores.push_back(fmt::format("{} {} (weight {})", plan.criteria[i].name,
                                 number(e.criterion_scores[i]), shortest(plan.criteria[i].weight)));
  }
  return plan.title + "\n" +
         line("Place",
              fmt::format("longitude {}, latitude {}; cell column {}, row {}", fixed(e.at.lon, 6),
                          fixed(e.at.lat, 6), e.cell.col, e.cell.row)) +
         line("Depth", depth_text(plan, e)) + slope(plan, e) + waves(plan, e) +
         (e.current_axis_deg ? line("Current", "runs along " + fixed(*e.current_axis_deg, 0) +
                                                   " degrees from true north, to and fro")
                             : "") +
         line("Verdict", fmt::format("suitability {}; {}", number(e.score.suitability), e.reason)) +
         (e.closed_by.size() > 1
              ? line("Closed by", fmt::format("{}", fmt::join(e.closed_by, "; ")))
              : "") +
         line("Scores", fmt::format("{}", fmt::join(scores, ", ")));
}

/// The plan's dates beside what the water says.
std::string dates(const Plan& plan, const Explanation& e) {
  std::string from_plan;
  const auto add = [&](std::string_view name, const std::optional<DayOfYear>& day) {
    if (day) {
      from_plan += fmt::format("{}{} {}", from_plan.empty() ? "; the plan gives " : ", ", name,
                               format_month_day(*day));
    }
  };
  add("outplant", plan.farm.outplant);
  add("last haul", plan.farm.last_haul);
  add("gear in", plan.season.gear_in);
  add("gear out", plan.season.gear_out);
  return line("Season", fmt::format("{}: {}", plan.crop.name, window_text(e.season))) +
         line("By water", fmt::format("{}{}", window_text(e.water_season), from_plan));
}

/// What the yield is net of.
std::string set_out(const Plan& plan) {
  return plan.crop.model == GrowthModel::kelp_frond
             ? "what was seeded"
             : shortest(plan.farm.stocking_g_per_m) + " g per m stocked";
}

std::string totals(const Plan& plan, const SeasonResult& g) {
  constexpr auto kBoth = page::Units::both;
  return line("Yield",
              fmt::format("{} of longline, fresh, net of {}; {} {}",
                          in_line(page::crop_per_m(g.yield_g_per_m / 1000.0), kBoth), set_out(plan),
                          g.harvests, g.harvests == 1 ? "harvest" : "harvests")) +
         line("Nitrogen", fmt::format("{} carried off; {} g per m taken up, {} lost with breakage",
                                      in_line(page::nitrogen_per_m(g.nitrogen_g_per_m), kBoth),
                                      number(g.uptake_g_per_m), number(g.lost_n_g_per_m)));
}

std::vector<std::string> month_row(const SeasonMonth& m) {
  std::vector<std::string> row{std::string(month_name(m.month)),  std::to_string(m.days),
                               fixed(m.temperature, 1),           fixed(m.salinity, 1),
                               fixed(m.light_at_line, 0),         fixed(m.nitrogen, 1),
                               fixed(100.0 * m.growth_per_day, 1)};
  for (const double factor : m.mean_factor) {
    row.push_back(fixed(factor, 2));
  }
  row.emplace_back(limit_phrase(m.limit));
  return row;
}

/// "1 m", of a fixed line where it is and what the light is a mean of.
std::string line_depth(const Plan& plan) {
  return shortest(plan.farm.line_depth_m) +
         (plan.farm.fixed_line ? " m below low water, fixed to the bed; mean over the tide" : " m");
}

std::string uptake_limit(const Plan& plan) {
  return plan.boundary_layer == BoundaryLayer::mass_transfer
             ? ", uptake limited by mass transfer to the crop"
             : "";
}

std::string months(const Plan& plan, const Explanation& e, const LimitThresholds& limits) {
  std::vector<std::vector<std::string>> rows{{"month", "days", "degC", "sal", "light", "N", "%/day",
                                              "f.temp", "f.sal", "f.light", "f.N", "f.crowd",
                                              "held back by"}};
  for (const SeasonMonth& month :
       season_months(e.growth.days, e.season.outplant, husbandry_of(plan), limits)) {
    rows.push_back(month_row(month));
  }
  return "\n" + table(rows) +
         wrapped(fmt::format("Light: umol m-2 s-1 at the line ({}), mean of the daylight hours. "
                             "N: umol/L dissolved{}. %/day: net growth, 100 ln. f.: mean "
                             "factors, 1 holds nothing back, 0 stops growth.",
                             line_depth(plan), uptake_limit(plan)),
                 kWidth, 0) +
         "\n\n";
}

/// "growth stops at 8 and 34.05 degC": the bounds that there are.
std::string bounds(double low, double high, std::string_view before, std::string_view after) {
  std::vector<std::string> ends;
  for (const double end : {low, high}) {
    if (std::isfinite(end)) {
      ends.push_back(shortest(end));
    }
  }
  return ends.empty() ? "" : fmt::format("{}{}{}", before, fmt::join(ends, " and "), after);
}

std::string tolerance(const Explanation& e, const LimitThresholds& limits) {
  return line("Days lost",
              fmt::format("{} (growth stops{}{})", days_text(days_beyond(e.growth.days, limits)),
                          bounds(limits.t_min, limits.t_max, " at ", " degC"),
                          bounds(limits.salinity_min, limits.salinity_max, " at salinity ", "")));
}

std::string spark(std::string_view label, const std::vector<double>& values, int decimals,
                  std::string_view unit, Glyphs glyphs) {
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  return fmt::format("{:<{}}{}  {} to {} {}\n", label, kIndent,
                     sparkline(values, kSparkColumns, glyphs), fixed(*low, decimals),
                     fixed(*high, decimals), unit);
}

std::string curves(const Explanation& e, Glyphs glyphs) {
  std::vector<double> biomass;
  std::vector<double> tissue;
  for (const DayTrace& day : e.growth.days) {
    biomass.push_back(day.biomass_g_per_m);
    tissue.push_back(100.0 * day.tissue_n);
  }
  return spark("Biomass", biomass, 0, "g per m", glyphs) +
         spark("Tissue N", tissue, 2, "% of dry weight", glyphs);
}

std::string harvests(const Explanation& e) {
  std::vector<std::string> cuts;
  for (std::size_t i = 0; i < e.growth.days.size(); ++i) {
    if (const double cut = e.growth.days[i].harvest_g_per_m; cut > 0.0) {
      cuts.push_back(fmt::format("{} {}", format_month_day(e.season.outplant + static_cast<int>(i)),
                                 fixed(cut / 1000.0, 3)));
    }
  }
  return cuts.empty() ? "" : line("Harvests", fmt::format("kg per m: {}", fmt::join(cuts, ", ")));
}

std::string season(const Plan& plan, const Explanation& e, Glyphs glyphs) {
  if (!e.grown) {
    return line("Season", "none was grown here");
  }
  if (e.growth.days.empty()) {
    return dates(plan, e);
  }
  const LimitThresholds limits = limit_thresholds(plan.crop);
  return dates(plan, e) + totals(plan, e.growth) + months(plan, e, limits) + tolerance(e, limits) +
         curves(e, glyphs) + harvests(e);
}

std::vector<std::string> rule_row(const Plan& plan, const Explanation& e, const RuleDistance& d) {
  const ClosedPlan& rule = plan.closed[static_cast<std::size_t>(d.rule)];
  return {rule.name,
          effect_of(rule, d, e),
          shortest(d.setback_m),
          fixed(d.distance_m, 1),
          d.distance_m > 0.0 ? fixed(d.bearing_deg, 0) : "inside",
          rule.rule.empty() ? "no rule given" : rule.rule};
}

std::string rules(const Plan& plan, const Explanation& e) {
  if (e.rules.empty()) {
    return "\nNo rule of the plan has a shape near here.\n";
  }
  std::vector<std::vector<std::string>> rows{
      {"rule", "effect", "setback m", "distance m", "bearing", "authority"}};
  const std::size_t shown = std::min(e.rules.size(), kMostRules);
  for (std::size_t i = 0; i < shown; ++i) {
    rows.push_back(rule_row(plan, e, e.rules[i]));
  }
  const std::size_t more = e.rules.size() - shown;
  return "\n" + table(rows) +
         (more > 0 ? fmt::format("and {} rules further off: see --json\n", more) : "");
}

std::string near(const Plan& plan, const Explanation& e) {
  if (e.near.empty()) {
    return "";
  }
  std::vector<std::vector<std::string>> rows{
      {"near", "effect", "within m", "found", "at most", "nearest m", "authority"}};
  for (const ShapesNear& found : e.near) {
    const NearPlan& test = plan.near[static_cast<std::size_t>(found.test)];
    rows.push_back({test.name, !found.beyond ? "-" : (test.closes ? "no site here" : "caution"),
                    shortest(test.distance_m), std::to_string(found.within),
                    std::to_string(test.count),
                    found.nearest_m ? fixed(*found.nearest_m, 1) : "none read",
                    test.rule.empty() ? "no rule given" : test.rule});
  }
  return "\n" + table(rows);
}

std::string foot(const Explanation& e) {
  std::string out = "\n";
  for (const std::string& warning : e.warnings) {
    out += wrapped("warning: " + warning, kWidth, 2) + "\n";
  }
  std::vector<std::string> cautions;
  cautions.reserve(std::size(kPlaceCautions));
  for (const std::size_t i : kPlaceCautions) {
    cautions.push_back(fmt::format("{} {}", i, page::short_cautions().at(i - 1)));
  }
  return out + line("Cautions", fmt::format("{}", fmt::join(cautions, "; ")));
}

}  // namespace

std::string effect_of(const ClosedPlan& rule, const RuleDistance& distance, const Explanation& e) {
  if (!rule.applies) {
    return "food only";
  }
  if (rule.caution) {
    return distance.cautioned ? "caution" : "-";
  }
  const int bit = closed_bit::kFirstRule + distance.rule;
  if (((e.evidence.rules >> bit) & 1U) != 0) {
    return "closed here";
  }
  if (((e.evidence.rules_unknown >> bit) & 1U) != 0) {
    return "not known";
  }
  return distance.cautioned ? "caution" : "-";
}

std::string explain_text(const Plan& plan, const Explanation& e, Glyphs glyphs) {
  return verdict(plan, e) + season(plan, e, glyphs) + rules(plan, e) + near(plan, e) + foot(e);
}

}  // namespace tidelot::cli
