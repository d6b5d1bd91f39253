// SPDX-License-Identifier: Apache-2.0
// A quantity over the grid, whatever it comes from, and the sampling of it on a tile.
#pragma once

#include <array>
#include <cstddef>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "stencil.hpp"
#include "step_use.hpp"
#include "surface.hpp"
#include "tidelot/core/units.hpp"
#include "tidelot/layers/layer_set.hpp"

namespace tidelot {

/// Where a raster's pixels lie. Layers with the same pixels share one, so that positions are worked
/// out once a tile.
struct Lattice {
  RasterInfo info;
  std::unique_ptr<Projector> grid_to_source;
};

/// Do two rasters have the same pixels?
[[nodiscard]] bool is_same_lattice(const RasterInfo& a, const RasterInfo& b);

/// A value for every cell and node of the year.
struct Field {
  /// A raster and the index of its Lattice.
  struct Part {
    std::unique_ptr<RasterSource> source;
    std::size_t lattice = 0;
  };
  struct Band {
    std::size_t part = 0;
    int band = 0;
  };
  std::array<double, kMonths> constant{};  ///< canonical; used where there is no other source
  std::shared_ptr<const Surface> surface;  ///< instead of parts; steady, already canonical
  std::vector<Part> parts;
  std::vector<Band> band;  ///< of each node; empty without parts
  YearNodes nodes = YearNodes::one;
  Conversion conversion;  ///< of what the rasters hold
  /// The values are these, the field is the attenuation that follows from them. The relations are
  /// not straight lines, so they come after sampling.
  enum class ToKd { none, secchi, turbidity, kd490 } to_kd = ToKd::none;
  LightPlan light;      ///< how
  bool spread = false;  ///< made here from stations: where it ends at land, no data are missing

  [[nodiscard]] Field clone() const;
};

/// Attenuation of PAR (1/m) from a value of a field.
[[nodiscard]] double kd_of(const Field& field, double value);

/// Samples fields on one tile.
class TileSampler {
 public:
  TileSampler(const Grid& grid, const Tile& tile, std::span<Lattice> lattices, EdgeRule edge)
      : grid_(grid), tile_(tile), lattices_(lattices), edge_(edge), stencils_(lattices.size()) {}

  /// The same on another tile.
  [[nodiscard]] TileSampler on(const Tile& tile) const { return {grid_, tile, lattices_, edge_}; }
  [[nodiscard]] const Grid& grid() const { return grid_; }
  [[nodiscard]] const Tile& tile() const { return tile_; }

  /// share, where it is not empty: see apply().
  [[nodiscard]] std::vector<float> node(Field& field, int node, std::span<float> share = {});
  /// Every node.
  [[nodiscard]] MonthlyTile all(Field& field);

 private:
  [[nodiscard]] const std::vector<Stencil>& stencils(std::size_t lattice);

  const Grid& grid_;
  Tile tile_;
  std::span<Lattice> lattices_;
  EdgeRule edge_;
  std::vector<std::vector<Stencil>> stencils_;
};

}  // namespace tidelot
