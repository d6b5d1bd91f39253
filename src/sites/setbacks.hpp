// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "sites/rectangle.hpp"
#include "tidelot/layers/layer_set.hpp"

namespace tidelot {

/// The edges of the areas that the plan closes, kept so that those near a site are found quickly.
/// Only rules with a setback: without one, the cells say all.
class Setbacks {
 public:
  /// scale: grid length over ground length.
  Setbacks(std::span<const ClosedLayer> closed, double scale);
  ~Setbacks();
  Setbacks(const Setbacks&) = delete;
  Setbacks& operator=(const Setbacks&) = delete;
  /// By how much, in the grid's metres, the rectangle's edge comes too near the true shapes, at
  /// worst; 0: every setback is kept. season: the months in which gear would lie there, bit 0
  /// January; a rule of other months does not hold then.
  [[nodiscard]] double shortfall(const Rectangle& rectangle, std::uint16_t season) const;
  [[nodiscard]] bool kept_by(const Rectangle& rectangle, std::uint16_t season) const {
    return shortfall(rectangle, season) == 0.0;
  }

 private:
  struct Rule;
  std::vector<Rule> rules_;
};

}  // namespace tidelot
