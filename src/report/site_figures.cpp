// SPDX-License-Identifier: Apache-2.0
#include "report/site_figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/words.hpp"

namespace tidelot::page {

const RuleDistance* nearest_closed(const Site& site, const Plan& plan) {
  const auto closes = [&](const RuleDistance& rule) {
    return !plan.closed.at(static_cast<std::size_t>(rule.rule)).caution;
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

std::string plain_name(const Site& site, std::size_t index) {
  return fmt::format("{}{:02d}", is_ranked(site) ? 'S' : 'A', index + 1);
}

}  // namespace tidelot::page
