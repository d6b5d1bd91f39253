// SPDX-License-Identifier: Apache-2.0
// The distances and limits of a plan that close water or sites, and the plan with one of them
// moved.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "tidelot/layers/layer_set.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot::run {

/// What decides where water is closed, besides the water itself.
struct Rules {
  Plan plan;
  std::vector<ClosedLayer> closed;
  std::vector<NearLayer> near;
};

struct Movable {
  enum class Of { setback, clearance, depth, waves, current, suitability, near } of = Of::setback;
  std::size_t index = 0;    ///< of the rule or test
  std::string key;          ///< as MovedKey
  std::string name;         ///< as MovedKey
  std::string unit;         ///< as MovedKey
  double value = 0.0;       ///< NaN where each shape has its own
  bool more_closes = true;  ///< does a larger value close more?
};

/// Everything of the plan that can be moved, in the order of closed.tif's bits, then what bars
/// sites. What is 0 or only cautions is left out.
[[nodiscard]] std::vector<Movable> movables(const Rules& rules);

/// The rules with one value times a factor; a suitability stays within 0..1.
[[nodiscard]] Rules with_moved(const Rules& rules, const Movable& what, double factor);

/// The moved value, NaN where each shape has its own.
[[nodiscard]] double moved_value(const Movable& what, double factor);

}  // namespace tidelot::run
