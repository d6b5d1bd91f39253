// SPDX-License-Identifier: Apache-2.0
#include "report/site/site_figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/words/say.hpp"
#include "report/words/words.hpp"

namespace tidelot::page {

std::string effect_words(const ClosedPlan& rule) {
  if (!rule.applies) {
    return label("figures.for_food_only_does_not_apply");
  }
  std::string months;
  for (int month = 0; month < kMonths; ++month) {
    if (((rule.months >> month) & 1U) != 0) {
      months += (months.empty() ? "" : ", ") + short_month(month);
    }
  }
  if (months.empty()) {
    return rule.caution ? label("figures.caution") : label("figures.closed");
  }
  return rule.caution ? plain_say("figures.caution_in", months)
                      : plain_say("figures.closed_in", months);
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

std::string short_name(const Site& site) {
  return site.own > 0 ? plain_name(site)
                      : fmt::format("{}{}", is_ranked(site) ? "" : "A", site.rank);
}

std::string called(const Site& site) {
  return plain_say(site.own > 0 ? "figures.own_box" : "figures.site", short_name(site));
}

std::string own_layout_sentence(const Site& site, ReportPlan::Units units) {
  return plain_say("figures.own_layout", in_line(length(site.size.length_m, 1), units),
                   in_line(length(site.size.width_m, 1), units));
}

std::string apart_note(const Site& site) {
  if (is_ranked(site)) {
    return "";
  }
  if (site.own > 0) {
    std::vector<std::string> phrases;
    for (const std::string& phrase : site.wrong) {
      phrases.push_back(translated(phrase));
    }
    return fmt::format("{}", fmt::join(phrases, "; "));
  }
  return site.unknown_share > 0.0
             ? plain_say("figures.not_known_over_of_it", percent(site.unknown_share))
             : label("figures.something_that_the_ranking_needs");
}

std::string draw_down_state(const Site& site) {
  return site.draw_down ? label("figures.counted")
                        : plain_say("figures.not_counted", translated(site.no_draw_down));
}

std::string draw_down_sentence(const Site& site, ReportPlan::Units units) {
  if (!site.draw_down) {
    return plain_say("figures.the_crops_own_draw_down", translated(site.no_draw_down));
  }
  const double whole = site.nitrogen_without_kg;
  const std::string share =
      whole > 0.0 ? " " + plain_say("figures.less", percent((whole - site.nitrogen_kg) / whole))
                  : "";
  return plain_say("figures.with_the_crops_own_draw_down",
                   in_line(crop(site.yield_without_t), units), in_line(nitrogen(whole), units),
                   share, percent(site.draw_down->lowest_share));
}

std::string draw_down_of_all(std::span<const Site> sites) {
  const auto counted = static_cast<std::size_t>(
      std::count_if(sites.begin(), sites.end(), [](const Site& s) { return bool(s.draw_down); }));
  if (counted == sites.size()) {
    return label("figures.with_the_crops_own_draw_down_2");
  }
  return counted == 0 ? label("figures.without_the_crops_own_draw_down")
                      : plain_say("figures.with_the_crops_own_draw_down_3", counted, sites.size());
}

std::string field_checked(const Site& site) {
  return site.field ? site.field->last : label("figures.not_field_checked");
}

std::string field_months(const Site& site) {
  std::string out;
  for (int month = 0; site.field && month < kMonths; ++month) {
    if (((site.field->months >> month) & 1U) != 0) {
      out += (out.empty() ? "" : "; ") + short_month(month);
    }
  }
  return out;
}

std::string field_sentence(const Site& site) {
  if (!site.field) {
    return field_checked(site);
  }
  return plain_say("figures.last_visits_months_one_visit", site.field->last, site.field->days,
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
    return label("figures.with_its_neighbours_the_same");
  }
  const std::string share =
      site.nitrogen_kg > 0.0
          ? " " + plain_say("figures.less_nitrogen",
                            percent((site.nitrogen_kg - all.nitrogen_kg) / site.nitrogen_kg))
          : "";
  return plain_say("figures.with_its_neighbours_all_ranked_sites",
                   in_line(crop(all.yield_t), units), in_line(nitrogen(all.nitrogen_kg), units),
                   share, fmt::join(all.sites, ", "));
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
  return plain_say("figures.all_at_once_would_give", ranked.size(),
                   in_line(crop(sum.yield_together_t), units),
                   in_line(nitrogen(sum.nitrogen_together_kg), units),
                   in_line(crop(sum.yield_t), units), in_line(nitrogen(sum.nitrogen_kg), units));
}

std::string plain_name(const Site& site) {
  return site.own > 0 ? fmt::format("OWN{}", site.own)
                      : fmt::format("{}{:02d}", is_ranked(site) ? 'S' : 'A', site.rank);
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
