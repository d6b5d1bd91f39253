// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <vector>

#include "sites/site_box.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot {

/// The shapes of the [[near]] tests that close, kept so that those near a site are found quickly.
class Proximity {
 public:
  /// scale: grid length over ground length. near, grid_to_lonlat and geodesy outlive it.
  Proximity(std::span<const NearLayer> near, double scale, Projector& grid_to_lonlat,
            const Geodesy& geodesy);
  ~Proximity();
  Proximity(const Proximity&) = delete;
  Proximity& operator=(const Proximity&) = delete;
  /// Does no closing test find more shapes within its distance than it allows? Counts what
  /// shapes_near counts.
  [[nodiscard]] bool allows(const SiteBox& box) const;

 private:
  struct Test;
  std::vector<Test> tests_;
  Projector& grid_to_lonlat_;
  const Geodesy& geodesy_;
};

/// What every test finds at a site, in plan order.
[[nodiscard]] std::vector<ShapesNear> shapes_near(const SiteBox& box,
                                                  std::span<const NearLayer> near,
                                                  Projector& grid_to_lonlat,
                                                  const Geodesy& geodesy);

}  // namespace tidelot
