// SPDX-License-Identifier: Apache-2.0
#include "run/tiles/movable.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <utility>

namespace tidelot::run {
namespace {

using Of = Movable::Of;

bool keeps_distance(const ClosedLayer& rule) {
  return rule.plan.closes() && std::any_of(rule.features.begin(), rule.features.end(),
                                           [](const Feature& f) { return f.setback_m > 0.0; });
}

void add_limit(std::vector<Movable>& out, Of of, const char* key, const char* name,
               const char* unit, std::optional<double> value, bool more_closes) {
  if (value && *value > 0.0) {
    out.push_back({of, 0, key, name, unit, *value, more_closes});
  }
}

void add_setbacks(std::vector<Movable>& out, std::span<const ClosedLayer> closed) {
  for (std::size_t i = 0; i < closed.size(); ++i) {
    const ClosedPlan& rule = closed[i].plan;
    if (keeps_distance(closed[i])) {
      const bool own = !rule.setback_field.empty();
      out.push_back({Of::setback, i,
                     fmt::format("closed[{}].{}", i, own ? "setback_field" : "setback_m"),
                     rule.name + ": setback", "m",
                     own ? std::numeric_limits<double>::quiet_NaN() : rule.setback_m, true});
    }
  }
}

void add_near(std::vector<Movable>& out, std::span<const NearLayer> near) {
  for (std::size_t i = 0; i < near.size(); ++i) {
    if (near[i].plan.closes && near[i].plan.distance_m > 0.0) {
      out.push_back({Of::near, i, fmt::format("near[{}].distance_m", i),
                     near[i].plan.name + ": distance", "m", near[i].plan.distance_m, true});
    }
  }
}

void times(std::optional<double>& value, double factor) {
  if (value) {
    *value *= factor;
  }
}

void move_setbacks(Rules& rules, std::size_t index, double factor) {
  rules.plan.closed[index].setback_m *= factor;
  rules.closed[index].plan.setback_m *= factor;
  for (Feature& feature : rules.closed[index].features) {
    feature.setback_m *= factor;
  }
}

void move_near(Rules& rules, std::size_t index, double factor) {
  rules.plan.near[index].distance_m *= factor;
  rules.near[index].plan.distance_m *= factor;
}

}  // namespace

std::vector<Movable> movables(const Rules& rules) {
  const FarmPlan& farm = rules.plan.farm;
  std::vector<Movable> out;
  add_limit(out, Of::clearance, "farm.clearance_m", "water left under the gear", "m",
            farm.clearance_m, true);
  add_limit(out, Of::depth, "farm.max_depth_m", "greatest depth for the gear", "m",
            farm.max_depth_m, false);
  add_limit(out, Of::waves, "farm.max_wave_m", "highest waves for the gear", "m", farm.max_wave_m,
            false);
  add_limit(out, Of::current, "farm.max_current_m_s", "strongest current for the gear", "m/s",
            farm.max_current_m_s, false);
  add_setbacks(out, rules.closed);
  add_near(out, rules.near);
  add_limit(out, Of::suitability, "sites.min_suitability", "lowest suitability under a site", "",
            rules.plan.sites.min_suitability, true);
  return out;
}

Rules with_moved(const Rules& rules, const Movable& what, double factor) {
  Rules out = rules;
  switch (what.of) {
    case Of::setback:
      move_setbacks(out, what.index, factor);
      break;
    case Of::clearance:
      out.plan.farm.clearance_m *= factor;
      break;
    case Of::depth:
      times(out.plan.farm.max_depth_m, factor);
      break;
    case Of::waves:
      times(out.plan.farm.max_wave_m, factor);
      break;
    case Of::current:
      times(out.plan.farm.max_current_m_s, factor);
      break;
    case Of::suitability:
      out.plan.sites.min_suitability = moved_value(what, factor);
      break;
    case Of::near:
      move_near(out, what.index, factor);
      break;
  }
  return out;
}

double moved_value(const Movable& what, double factor) {
  const double value = what.value * factor;
  return what.of == Of::suitability ? std::min(value, 1.0) : value;
}

}  // namespace tidelot::run
