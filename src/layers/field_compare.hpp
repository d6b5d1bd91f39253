// SPDX-License-Identifier: Apache-2.0
// Readings from the boat against the layers.
#pragma once

#include <string>
#include <vector>

#include "field_readings.hpp"
#include "tidelot/layers/field_checks.hpp"
#include "tidelot/layers/layer_set.hpp"

namespace tidelot {

/// A reading less its layer at that place and month, or day where the layer is daily.
struct Residual {
  LonLat place;
  XY at;  ///< in the grid's system
  Day day;
  double value = 0.0;
};

struct Compared {
  std::vector<std::vector<Residual>> of{std::size(kFieldProperties)};  ///< by property
  std::vector<FieldVisit> visits;  ///< in the area's water, those of unknown layers too
  std::vector<std::string> notes;  ///< what was left out, one line each
};

/// Readings outside of the area or on land, and those whose layer is not known there, are left out
/// and counted. A reading counts for the cell that it lies in.
[[nodiscard]] Compared compare(const FieldTable& table, LayerSet& layers,
                               Projector& grid_to_degrees);

/// The layer of a water property in a tile; not of depth.
[[nodiscard]] MonthlyTile& tile_of(TileLayers& layers, FieldProperty property);

/// Count, bias and RMSE; count 0 without any.
[[nodiscard]] FieldResidual summary(FieldProperty property, const std::vector<Residual>& residuals);

}  // namespace tidelot
