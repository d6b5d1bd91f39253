// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <numeric>

#include "report/parts.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason.hpp"
#include "tidelot/criteria/reason_codes.hpp"

namespace tidelot::page {
namespace {

/// True hectares of a number of cells.
double hectares(const ReportData& data, std::size_t cells) {
  const double side = data.grid->cell_m / data.grid_scale;
  return static_cast<double>(cells) * side * side / 1e4;
}

double share_of(std::size_t part, std::size_t whole) {
  return whole == 0 ? 0.0 : static_cast<double>(part) / static_cast<double>(whole);
}

std::size_t count_at(const std::vector<std::size_t>& counts, std::size_t index) {
  return index < counts.size() ? counts[index] : 0;
}

std::vector<std::string> closed_row(const ReportData& data, const std::string& name,
                                    const std::string& rule, std::size_t bit) {
  const std::size_t cells = count_at(data.counts.closed_by_bit, bit);
  const std::size_t alone = count_at(data.counts.closed_only_by_bit, bit);
  const Units units = data.plan->report.units;
  return {text(name), in_line(area(hectares(data, cells)), units),
          percent(share_of(cells, data.counts.water)), in_line(area(hectares(data, alone)), units),
          text(rule)};
}

/// What all of them close together.
std::vector<std::string> any_row(const ReportData& data) {
  return {label("water.any_of_them"), in_line(area(data.counts.closed_ha), data.plan->report.units),
          percent(share_of(data.counts.closed, data.counts.water)), "", ""};
}

std::string with_setback(const ClosedPlan& rule, Units units) {
  return rule.setback_m > 0.0
             ? plain_say("map.with_setback", rule.name, in_line(distance(rule.setback_m), units))
             : rule.name;
}

std::string closed_table(const ReportData& data) {
  const Plan& plan = *data.plan;
  Table table{label("water.what_closed_the_water"),
              {{label("water.closed_by")},
               {label("water.water"), true},
               {label("water.share_of_the_water"), true},
               {label("water.by_it_alone"), true},
               {label("water.rule")}},
              {},
              ""};
  const std::vector<std::string> names = closed_bit_names(plan);
  for (std::size_t bit = 0; bit < closed_bit::kFirstRule; ++bit) {
    if (count_at(data.counts.closed_by_bit, bit) > 0) {
      table.rows.push_back(
          closed_row(data, translated(names.at(bit)), label("water.the_gear_and_the_plan"), bit));
    }
  }
  for (std::size_t i = 0; i < plan.closed.size(); ++i) {
    const ClosedPlan& rule = plan.closed[i];
    if (rule.closes()) {
      table.rows.push_back(closed_row(data, with_setback(rule, plan.report.units),
                                      rule.rule.empty() ? label("words.no_rule_given") : rule.rule,
                                      closed_bit::kFirstRule + i));
    }
  }
  if (table.rows.empty()) {
    return element("p", label("water.nothing_closed_any_water"));
  }
  table.rows.push_back(any_row(data));
  return html(table) + element("p class=\"note\"", label("water.water_may_be_closed_by_more"));
}

std::string standing_table(const ReportData& data) {
  const RunCounts& counts = data.counts;
  const Units units = data.plan->report.units;
  Table table{label("water.where_the_area_stands"),
              {{""}, {label("water.area"), true}, {label("water.share"), true}},
              {},
              ""};
  const auto row = [&](const std::string& name, double ha, std::size_t cells) {
    table.rows.push_back({name, in_line(area(ha), units), percent(share_of(cells, counts.cells))});
  };
  row(label("water.open_water_scored"), counts.open_ha, counts.open);
  row(label("water.closed_water"), counts.closed_ha, counts.closed);
  row(label("water.not_known_no_data_in_something"), hectares(data, counts.unknown),
      counts.unknown);
  row(label("water.land_or_dry_at_low_water"), hectares(data, counts.land), counts.land);
  return html(table);
}

/// Codes of reasons that water has, the most frequent first.
std::vector<std::size_t> reasons_by_count(const RunCounts& counts) {
  std::vector<std::size_t> codes;
  for (std::size_t code = reason::kDepthUnknown; code < counts.by_reason.size(); ++code) {
    if (counts.by_reason[code] > 0) {
      codes.push_back(code);
    }
  }
  std::stable_sort(codes.begin(), codes.end(), [&](std::size_t a, std::size_t b) {
    return counts.by_reason[a] > counts.by_reason[b];
  });
  return codes;
}

std::string reason_table(const ReportData& data) {
  const std::vector<std::size_t> codes = reasons_by_count(data.counts);
  std::size_t all = 0;
  for (const std::size_t code : codes) {
    all += data.counts.by_reason[code];
  }
  Table table{label("water.what_closes_the_water_or_holds"),
              {{label("water.reason")}, {label("water.area"), true}, {label("water.share"), true}},
              {},
              ""};
  for (const std::size_t code : codes) {
    const std::size_t cells = data.counts.by_reason[code];
    table.rows.push_back(
        {code < data.reason_names.size() ? text(translated(data.reason_names[code])) : "",
         in_line(area(hectares(data, cells)), data.plan->report.units),
         percent(share_of(cells, all))});
  }
  return table.rows.empty() ? "" : html(table);
}

}  // namespace

std::string water_tables(const ReportData& data) {
  return element("section id=\"the-water\"", element("h2", label("water.the_water")) +
                                                 standing_table(data) + closed_table(data) +
                                                 reason_table(data) + what_if_table(data));
}

}  // namespace tidelot::page
