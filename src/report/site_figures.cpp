// SPDX-License-Identifier: Apache-2.0
#include "report/site_figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/words.hpp"

namespace tidelot::page {

std::string effect_words(const ClosedPlan& rule) {
  if (!rule.applies) {
    return "for food only: does not apply";
  }
  std::string words = rule.caution ? "caution" : "closed";
  for (int month = 0; month < kMonths; ++month) {
    if (((rule.months >> month) & 1U) != 0) {
      words += fmt::format("{} {}", words.find(" in ") == std::string::npos ? " in" : ",",
                           month_name(month));
    }
  }
  return words;
}

const RuleDistance* nearest_closed(const Site& site, const Plan& plan) {
  const auto closes = [&](const RuleDistance& rule) {
    return plan.closed.at(static_cast<std::size_t>(rule.rule)).closes();
  };
  const auto found = std::find_if(site.rules.begin(), site.rules.end(), closes);
  return found == site.rules.end() ? nullptr : &*found;
}

const std::string& rule_name(const RuleDistance& rule, const Plan& plan) {
  return plan.closed.at(static_cast<std::size_t>(rule.rule)).name;
}

std::string apart_note(const Site& site) {
  if (is_ranked(site)) {
    return "";
  }
  return site.unknown_share > 0.0
             ? fmt::format("not known over {} of it", percent(site.unknown_share))
             : "something that the ranking needs is not known";
}

std::string draw_down_state(const Site& site) {
  return site.draw_down ? "counted" : "not counted: " + site.no_draw_down;
}

std::string draw_down_sentence(const Site& site, ReportPlan::Units units) {
  if (!site.draw_down) {
    return fmt::format("The crop's own draw-down of nitrogen is not counted: {}.",
                       site.no_draw_down);
  }
  const double whole = site.nitrogen_without_kg;
  const std::string share =
      whole > 0.0 ? fmt::format(" ({} less)", percent((whole - site.nitrogen_kg) / whole)) : "";
  return fmt::format(
      "With the crop's own draw-down of nitrogen; without it {} and {} of nitrogen{}. On the "
      "poorest day {} of the nitrogen that came in was left in the water behind the lines.",
      in_line(crop(site.yield_without_t), units), in_line(nitrogen(whole), units), share,
      percent(site.draw_down->lowest_share));
}

std::string draw_down_of_all(std::span<const Site> sites) {
  const auto counted = static_cast<std::size_t>(
      std::count_if(sites.begin(), sites.end(), [](const Site& s) { return bool(s.draw_down); }));
  if (counted == sites.size()) {
    return "with the crop's own draw-down of nitrogen";
  }
  return counted == 0 ? "without the crop's own draw-down of nitrogen"
                      : fmt::format(
                            "with the crop's own draw-down of nitrogen at {} of {} sites "
                            "(where the water at the centre is known)",
                            counted, sites.size());
}

std::string field_checked(const Site& site) {
  return site.field ? site.field->last : "not field-checked";
}

std::string field_months(const Site& site) {
  std::string out;
  for (int month = 0; site.field && month < kMonths; ++month) {
    if (((site.field->months >> month) & 1U) != 0) {
      out += (out.empty() ? "" : "; ") + std::string(month_name(month));
    }
  }
  return out;
}

std::string field_sentence(const Site& site) {
  if (!site.field) {
    return field_checked(site);
  }
  return fmt::format("last {}, {} visit{}, months {}. One visit on one tide clears nothing.",
                     site.field->last, site.field->days, site.field->days == 1 ? "" : "s",
                     field_months(site));
}

std::string neighbour_names(const Site& site) {
  return site.with_neighbours ? fmt::format("{}", fmt::join(site.with_neighbours->sites, "; "))
                              : std::string();
}

std::string neighbour_sentence(const Site& site, ReportPlan::Units units) {
  if (!site.with_neighbours) {
    return "";
  }
  const WithNeighbours& all = *site.with_neighbours;
  if (all.sites.empty()) {
    return "With its neighbours: the same, as no other ranked site lies up or down the tide within "
           "the way of half a tide.";
  }
  const std::string share =
      site.nitrogen_kg > 0.0
          ? fmt::format(" ({} less nitrogen)",
                        percent((site.nitrogen_kg - all.nitrogen_kg) / site.nitrogen_kg))
          : "";
  return fmt::format(
      "With its neighbours, all ranked sites farmed at once: {} and {} of nitrogen{}; water comes "
      "to it that has passed {}.",
      in_line(crop(all.yield_t), units), in_line(nitrogen(all.nitrogen_kg), units), share,
      fmt::join(all.sites, ", "));
}

SumOfSites sum_of(std::span<const Site> ranked) {
  SumOfSites sum;
  for (const Site& site : ranked) {
    sum.yield_t += site.yield_t;
    sum.nitrogen_kg += site.nitrogen_kg;
    sum.yield_together_t += site.with_neighbours ? site.with_neighbours->yield_t : site.yield_t;
    sum.nitrogen_together_kg +=
        site.with_neighbours ? site.with_neighbours->nitrogen_kg : site.nitrogen_kg;
  }
  return sum;
}

std::string together_sentence(std::span<const Site> ranked, ReportPlan::Units units) {
  if (ranked.size() < 2) {
    return "";
  }
  const SumOfSites sum = sum_of(ranked);
  return fmt::format(
      "All {} at once would give {} and carry off {} of nitrogen; each alone, added up: {} and {}.",
      ranked.size(), in_line(crop(sum.yield_together_t), units),
      in_line(nitrogen(sum.nitrogen_together_kg), units), in_line(crop(sum.yield_t), units),
      in_line(nitrogen(sum.nitrogen_kg), units));
}

std::string plain_name(const Site& site, std::size_t index) {
  return fmt::format("{}{:02d}", is_ranked(site) ? 'S' : 'A', index + 1);
}

std::string line_name(const std::string& site, std::size_t line) {
  return fmt::format("{}L{:02d}", site, line + 1);
}

std::string anchor_name(const std::string& site, std::size_t line, std::size_t end) {
  return fmt::format("{}{}", line_name(site, line), end == 0 ? 'A' : 'B');
}

std::string marker_name(const std::string& site, std::size_t marker) {
  return fmt::format("{}M{:02d}", site, marker + 1);
}

}  // namespace tidelot::page
