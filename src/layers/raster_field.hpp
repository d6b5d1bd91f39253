// SPDX-License-Identifier: Apache-2.0
// From a file named in the plan to a field over the grid, with everything that can be wrong with it
// found on the way.
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "depth_sign.hpp"
#include "field.hpp"
#include "layer_units.hpp"
#include "prepared_raster.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/layers/layer_set.hpp"
#include "water_lattice.hpp"

namespace tidelot {

/// What a raster layer is wanted for.
struct RasterWish {
  std::string key;  ///< "water.temperature"
  FileRef file;
  std::optional<Quantity> quantity;  ///< none: the user's own layer, values as they are
  std::string unit;                  ///< the plan's
  double sign = 1.0;                 ///< -1: elevations that become depths
  bool monthly = false;
  std::optional<PlausibleRange> range;  ///< instead of the quantity's own
  WaterPlan::Steps steps = WaterPlan::Steps::automatic;
  double line_depth_m = 0.0;   ///< of a file with levels
  std::string northward = {};  ///< variable of the second part of a current; "": one variable
  /// Looks at what the file says of itself before any pixel is read; says what is wrong, or "".
  std::function<std::string(const RasterInfo&)> objection{};
};

/// What all layers share while they are opened.
struct Opening {
  Opener& opener;
  Grid grid;
  LonLatBox bounds;  ///< the area in degrees
  double line_depth_m = 0.0;
  std::vector<Lattice> lattices;
  std::vector<LayerReport> reports;
  std::vector<std::string> warnings;
  std::vector<FileRef> files;
  DepthOfTile depth;  ///< at low water; from when the depth layers are open
  std::map<int, std::shared_ptr<const Waterway>> waterways;  ///< by cells a side of a block
  std::vector<Error>* problems = nullptr;   ///< gathers what is wrong; null: it is thrown
  std::vector<SeaWitness> sea_witnesses{};  ///< the stations of each property
};

/// Gathers a problem of the layer at key, and adds its row.
void add_problem(const std::string& key, const Error& problem, Opening& opening);

/// Stands for a layer that could not be read while problems are gathered.
[[nodiscard]] Field unknown_field();

/// What open() gives; or fallback where it throws and problems are gathered, with a row that says
/// so.
template <typename Result, typename Open>
[[nodiscard]] Result opened(const std::string& key, Opening& opening, Result fallback, Open open) {
  try {
    return open();
  } catch (const Error& problem) {
    if (opening.problems == nullptr) {
      throw;
    }
    add_problem(key, problem, opening);
    return fallback;
  }
}

/// The index of a raster's lattice, added where it is a new one.
[[nodiscard]] std::size_t lattice_of(Opening& opening, const RasterInfo& info,
                                     std::unique_ptr<Projector> grid_to_source);

/// A field and what its values over the area and its file say.
struct FileField {
  Field field;
  PixelStats stats;
  std::string positive;       ///< as the file says: "up", "down" or ""
  std::string standard_name;  ///< of CF, or ""
  std::optional<Field> axis;  ///< of a current of two parts, as in current_axis.hpp
};

/// The unit of a wish's file, its sign worked in.
[[nodiscard]] UnitChoice unit_of(const RasterWish& wish, const FileRef& file,
                                 const std::string& file_unit);

/// Which values are believed; none for the user's own layers.
[[nodiscard]] std::optional<Screen> screen_of(const RasterWish& wish, const UnitChoice& unit);

/// Values that cannot be true: many mean a wrong unit and are refused, a few are noise, become
/// unknown and are said. Throws Error(input).
void check_range(const RasterWish& wish, const PixelStats& stats, Opening& opening);

/// Opens and reads the raster, checks unit, months, overlap and range, adds its report, its
/// warnings and its files. Throws Error(input), Error(plan).
[[nodiscard]] FileField open_raster_field(const RasterWish& wish, Opening& opening);

}  // namespace tidelot
