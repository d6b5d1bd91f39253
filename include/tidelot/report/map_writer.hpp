// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "tidelot/core/grid.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot {

/// Binary digits of a float, and those of what the crop model gives: within 2^-13, 1.2e-4, of the
/// value, which no water is known to; the file is about half as large.
inline constexpr int kAllDigits = 24;
inline constexpr int kModelDigits = 13;

/// One band of a map.
struct MapBand {
  std::string description;
  std::string unit;
  std::variant<std::span<const float>, std::span<const std::uint32_t>,
               std::span<const std::uint8_t>>
      values;               ///< grid.size(); NaN in a float band is written as nodata
  int digits = kAllDigits;  ///< binary digits that a float is rounded to
};

struct MapColour {
  std::uint8_t r = 0, g = 0, b = 0;
};

/// One GeoTIFF of maps/.
struct MapFile {
  std::string name;  ///< "suitability.tif"
  std::vector<MapBand> bands;
  double nodata = -9999.0;
  std::vector<std::string> categories;  ///< of a uint8 map, index = code
  std::vector<std::pair<std::string, std::string>> metadata;
  MapCodec codec = MapCodec::zstd;
  std::vector<MapColour> colours{};  ///< of a uint8 map, index = code; empty: none embedded
};

/// Writes the formats that need a library. geoio has the implementation. Every method writes a
/// whole file that did not exist before, syncs it, opens it again and compares; Error(output)
/// otherwise.
class MapWriter {
 public:
  virtual ~MapWriter() = default;
  /// A Cloud Optimized GeoTIFF with unit, description, statistics, colours and metadata.
  virtual void write_map(const std::filesystem::path& path, const Grid& grid,
                         const MapFile& map) = 0;
  /// A GeoPackage with the layer `sites` (WGS 84 polygons, every figure), fixed time stamps.
  virtual void write_geopackage(const std::filesystem::path& path, std::span<const Site> sites,
                                const Plan& plan) = 0;
  /// A PNG in memory: width * height bytes of grey, or 4 * width * height of red, green, blue and
  /// alpha. May be called from several threads at once.
  [[nodiscard]] virtual std::string png(int width, int height,
                                        std::span<const std::uint8_t> pixels) = 0;
};

}  // namespace tidelot
