// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "tidelot/core/geometry.hpp"
#include "tidelot/core/grid.hpp"
#include "tidelot/layers/raster_source.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// Coordinates from one reference system to another. Longitudes before latitudes, easting before
/// northing, always. Not to be shared between threads: clone it.
class Projector {
 public:
  virtual ~Projector() = default;
  /// In place. A point that cannot be projected becomes NaN, NaN.
  virtual void forward(std::span<XY> points) = 0;
  virtual void inverse(std::span<XY> points) = 0;
  [[nodiscard]] virtual std::unique_ptr<Projector> clone() const = 0;
  /// "Inverse of NAD83 to WGS 84 (1), accuracy 4 m": printed by check and kept in run.json.
  [[nodiscard]] virtual const std::string& operation() const = 0;
};

/// What a shape's status says of the water in it.
enum class Standing {
  closed,   ///< the rule holds
  caution,  ///< open, to be asked about
  open,     ///< the rule does not hold here
  unknown,  ///< not known: neither open nor closed
};

/// Columns of a vector layer that are read besides its shapes; "" none.
struct FeatureColumns {
  std::string setback;
  std::string status;
};

/// One feature of a vector layer, in the grid's system. Edges are densified before they are
/// projected, so an edge strays less than 0.05 m from the true one.
struct Feature {
  Shape shape;
  std::string label;  ///< a name column where there is one, else ""
  /// Of the column of values, NaN where there is none.
  double value = std::numeric_limits<double>::quiet_NaN();
  std::optional<double> own_setback = {};  ///< of the setback column, as it stands there
  std::string status = {};                 ///< of the status column, one line, "" where empty
  double setback_m = 0.0;                  ///< in force: its own, else the rule's
  Standing standing = Standing::closed;
};

/// What a vector layer says of itself.
struct FeatureLayer {
  std::vector<Feature> features;
  std::string crs_name;
  std::string format;
  std::string operation;              ///< of its Projector
  std::string crs_basis{};            ///< "" where the file states it all, else one line
  std::size_t repaired = 0;           ///< invalid features that were made valid
  std::vector<std::string> warnings;  ///< one line each
};

/// A box on the earth, degrees, WGS 84; west < east.
struct LonLatBox {
  double west = -180.0;
  double south = -90.0;
  double east = 180.0;
  double north = 90.0;
};

/// Values that lie on no regular pixels, in the grid's system and the file's unit.
struct Scatter {
  enum class Kind { mesh, points, areas } kind = Kind::points;
  std::vector<XY> places;                               ///< of a mesh's nodes, or the points
  std::vector<double> values;                           ///< one a place, or one an area
  std::vector<std::array<std::uint32_t, 3>> triangles;  ///< of places; a mesh's own
  std::vector<Shape> areas;
  std::string what;  ///< "netCDF mesh, 7258 nodes, 13044 triangles"
  std::string of;    ///< what the values are: the variable or field, for people
  std::string crs_name;
  std::string crs_basis;      ///< "" where the file states it, else what was assumed and why
  std::string operation;      ///< of the Projector
  std::string unit;           ///< "" where the file does not say
  std::string positive;       ///< "up", "down" or "", as the file says
  std::string standard_name;  ///< of CF, or ""
  LonLatBox box;              ///< of all places, degrees, as far as they are known
  std::vector<std::string> warnings;  ///< one line each, without key and file
};

/// Opens what a plan names. The only implementation that reads files is geoio's; tests bring their
/// own. Every failure is Error(input), naming the file as the plan writes it and the key.
class Opener {
 public:
  virtual ~Opener() = default;
  /// key names the plan's table in messages ("water.salinity").
  [[nodiscard]] virtual std::unique_ptr<RasterSource> open_raster(const FileRef& file,
                                                                  const std::string& key) = 0;
  /// Reads all features that meet `where` (OGR SQL) and touch the box, in crs. Shapes much larger
  /// than the box are cut about a degree outside of it.
  [[nodiscard]] virtual FeatureLayer read_features(const FileRef& file, const std::string& where,
                                                   const std::string& key, const std::string& crs,
                                                   const LonLatBox& box,
                                                   const FeatureColumns& columns) = 0;
  [[nodiscard]] FeatureLayer read_features(const FileRef& file, const std::string& where,
                                           const std::string& key, const std::string& crs,
                                           const LonLatBox& box) {
    return read_features(file, where, key, crs, box, FeatureColumns{});
  }
  /// The bytes of a text file. Refuses one over max_bytes.
  [[nodiscard]] virtual std::string read_text(const FileRef& file, const std::string& key,
                                              std::size_t max_bytes) = 0;
  /// The values of a file that is no raster: a triangular mesh, points, or areas with a value each.
  /// Nothing where the file is a raster, or is not understood at all (open_raster says why then).
  /// What lies far from the box is left out.
  [[nodiscard]] virtual std::optional<Scatter> read_scatter(const FileRef& file,
                                                            const std::string& key,
                                                            const std::string& crs,
                                                            const LonLatBox& box) = 0;
  /// Delaunay's triangles of places that are all different; none where they lie in a row.
  [[nodiscard]] virtual std::vector<std::array<std::uint32_t, 3>> triangulate(
      std::span<const XY> places) = 0;
  /// from, to: WKT or whatever PROJ understands. The best known operation for the area, the
  /// same for every point; a ballpark one only where the plan allows it and there is no other.
  [[nodiscard]] virtual std::unique_ptr<Projector> projector(const std::string& from,
                                                             const std::string& to,
                                                             const std::string& key,
                                                             const LonLatBox& area) = 0;
  /// The same between systems of one datum, where the area makes no difference.
  [[nodiscard]] std::unique_ptr<Projector> projector(const std::string& from, const std::string& to,
                                                     const std::string& key) {
    return projector(from, to, key, LonLatBox{});
  }
  /// Checks [area] crs: metres, projected. Gives what the grid keeps, "EPSG:32626" where it can.
  [[nodiscard]] virtual std::string metric_crs(const std::string& written) = 0;
  /// For people: "WGS 84 / UTM zone 26N (EPSG:32626)".
  [[nodiscard]] virtual std::string crs_name(const std::string& crs) = 0;
};

/// EPSG code of the WGS 84 UTM zone of a position, "EPSG:32626", with the exception zones of the
/// Norwegian coast and Svalbard.
[[nodiscard]] std::string utm_crs(LonLat place);

}  // namespace tidelot
