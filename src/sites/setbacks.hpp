// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "sites/site_box.hpp"
#include "tidelot/layers/layer_set.hpp"

namespace tidelot {

/// The edges of the areas that the plan closes, kept so that those near a site are found quickly.
/// Only of shapes with a setback: without one, the cells say all.
class SetbackEdges {
 public:
  explicit SetbackEdges(std::span<const ClosedLayer> closed);
  ~SetbackEdges();
  SetbackEdges(const SetbackEdges&) = delete;
  SetbackEdges& operator=(const SetbackEdges&) = delete;

 private:
  friend class Setbacks;
  struct Rule;
  std::vector<Rule> rules_;
};

/// How far a site must stay from those edges. Edges are the same for all threads and however far
/// the setbacks are moved.
class Setbacks {
 public:
  /// closed: the layers of the edges, or those with other setbacks; what had none has none.
  /// scale: grid length over ground length. The edges outlive it.
  Setbacks(const SetbackEdges& edges, std::span<const ClosedLayer> closed, double scale);
  ~Setbacks();
  Setbacks(const Setbacks&) = delete;
  Setbacks& operator=(const Setbacks&) = delete;
  /// By how much, in the grid's metres, the edge of the box comes too near the true shapes, at
  /// worst; 0: every setback is kept. season: the months in which gear would lie there, bit 0
  /// January; a rule of other months does not hold then.
  [[nodiscard]] double shortfall(const SiteBox& box, std::uint16_t season) const;
  struct Broken {
    std::size_t rule = 0;    ///< index in the plan
    double missing_m = 0.0;  ///< as of shortfall
  };
  /// Every rule whose setback is not kept, in plan order.
  [[nodiscard]] std::vector<Broken> broken(const SiteBox& box, std::uint16_t season) const;
  [[nodiscard]] bool kept_by(const SiteBox& box, std::uint16_t season) const {
    return shortfall(box, season) == 0.0;
  }

 private:
  struct Rule;
  std::vector<Rule> rules_;
};

}  // namespace tidelot
