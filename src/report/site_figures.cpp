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

std::string plain_name(const Site& site, std::size_t index) {
  return fmt::format("{}{:02d}", is_ranked(site) ? 'S' : 'A', index + 1);
}

}  // namespace tidelot::page
