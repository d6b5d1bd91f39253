// SPDX-License-Identifier: Apache-2.0
// What readings from the boat change in the layers: docs/science/field.md.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "field_compare.hpp"
#include "raster_field.hpp"

namespace tidelot {

/// Of one water property: a shift everywhere, or residuals spread around the readings.
struct FieldCorrection {
  FieldProperty property = FieldProperty::temperature;
  double shift = 0.0;
  std::optional<Field> residual;  ///< instead of the shift; twelve months
};

/// The one place where readings change values. Nothing of it is shared with other copies.
struct FieldCorrections {
  std::vector<Lattice> lattices;
  std::vector<FieldCorrection> all;

  [[nodiscard]] FieldCorrections clone() const;
  /// Of a tile as sampled. Attenuation, nitrogen, current and salinity never fall below 0; the
  /// ammonium keeps its share of the nitrogen.
  void apply(const Grid& grid, const Tile& tile, TileLayers& layers);
};

/// The share of a residual that is left at a distance, m: (1 - (d/range)^2)^2, 0 from range_m on.
[[nodiscard]] double fade(double distance_m, double range_m);

/// The residuals of one property spread through the water as stations are, times the fade of the
/// distance to the nearest reading. steady: the layer
/// does not change over the year, so all months take the mean. opening.depth is given. At least one
/// residual.
[[nodiscard]] Field spread_residuals(const std::vector<Residual>& residuals, bool steady,
                                     double range_m, Opening& opening);

}  // namespace tidelot
