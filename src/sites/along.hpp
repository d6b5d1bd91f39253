// SPDX-License-Identifier: Apache-2.0
// Which way a site lies where the current's axis is known.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "tidelot/core/grid.hpp"
#include "tidelot/core/grid_vector.hpp"
#include "tidelot/sites/geodesy.hpp"
#include "tidelot/sites/layout.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot {

/// Bearing of grid north from true north at the grid's middle, degrees.
[[nodiscard]] double grid_north(const Grid& grid, Projector& grid_to_lonlat,
                                const Geodesy& geodesy);

/// The mean of axes, bearings in degrees, 0 to 180; none where there is none, or where they run all
/// ways alike. Twice their angles are averaged.
class AxisMean {
 public:
  void add(double bearing_deg);
  [[nodiscard]] std::optional<double> mean() const;

 private:
  std::int64_t cosine_ = 0;  // whole steps of 2^-20: sums do not depend on their order
  std::int64_t sine_ = 0;
  friend class AxisSquares;
};

/// Of each cell the whole degree from grid north (0 to 179) of the current's mean axis over the
/// square of the site's length around it; -1 where it is not known. axis: true bearings.
[[nodiscard]] GridVector<std::int16_t> degrees_along(const Grid& grid, std::span<const float> axis,
                                                     double grid_north_deg, const SiteSize& size);

}  // namespace tidelot
