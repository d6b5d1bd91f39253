// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <atomic>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "geoio/geoio.hpp"
#include "tidelot/layers/layer_set.hpp"
#include "tidelot/layers/opener.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot::run {

/// A plan with its layers open and what is known of its grid.
struct Area {
  std::unique_ptr<Opener> opener;
  std::unique_ptr<LayerSet> layers;
  std::unique_ptr<Projector> to_lonlat;  ///< grid -> WGS 84
  std::array<LonLat, 4> corners{};       ///< NW, NE, SE, SW of the grid
  LonLat middle;
  double scale = 1.0;        ///< grid length over ground length at the middle
  double areal_scale = 1.0;  ///< grid area over ground area at the middle
  double scale_error = 0.0;  ///< most that a length taken by `scale` is off, anywhere, any way
  double convergence_deg = 0.0;
  std::vector<std::string> warnings;  ///< the plan's, the layers' and the grid's
};

/// Most that a length taken by one scale is off where the scales are these.
[[nodiscard]] double scale_error(double scale, std::span<const geoio::ProjectionFactors> places);

/// Opens everything; Error(input) or Error(plan). problems: see open_layers. stop: not 0 when the
/// run shall end, Interrupted then. No other thread may run, see geoio::make_opener.
[[nodiscard]] Area open_area(const Plan& plan, std::vector<Error>* problems = nullptr,
                             const std::atomic<int>* stop = nullptr);

/// Latitudes of all cell centres of a tile, bilinear between the tile's corner cells; a tile is at
/// most 32 km wide, so a latitude is within 0.001 degrees of the exact one.
[[nodiscard]] std::vector<float> latitudes_of(const Grid& grid, const Tile& tile,
                                              Projector& to_lonlat);

/// Side of a tile in cells: 64, or less where cells are so large that a tile would exceed 32 km.
[[nodiscard]] int tile_side(const Grid& grid);

/// Tiles a side whose members are grown together: 4, or fewer where they would exceed 32 km.
[[nodiscard]] int group_side(const Grid& grid);

[[nodiscard]] LonLat lonlat_of(Projector& to_lonlat, XY place);

}  // namespace tidelot::run
