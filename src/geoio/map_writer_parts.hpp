// SPDX-License-Identifier: Apache-2.0
// The parts of the map writer. Each writes a file, opens it again and compares; see
// tidelot/report/map_writer.hpp.
#pragma once

#include <gdal_priv.h>

#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <type_traits>
#include <variant>
#include <vector>

#include "band_statistics.hpp"
#include "tidelot/report/map_writer.hpp"

namespace tidelot::geoio {

/// Side of a map's internal tiles, cells.
inline constexpr int kMapBlock = 512;

/// How hard a codec tries. On the four rounded bands of tests/bench/cog_bench (2000 x 2000 cells)
/// zstd wrote 65 MB a CPU second at level 3 and 87 at level 1, in files of 16.6 and 17.9 MB.
[[nodiscard]] constexpr int codec_level(MapCodec codec) { return codec == MapCodec::zstd ? 1 : 6; }

/// Beside the map it holds a few rows of tiles, whatever the map's size.
void write_cog(const std::filesystem::path& path, const Grid& grid, const MapFile& map);

/// Opens the map again and compares everything that was asked for, every cell included. `bands` are
/// the map's, as they stand in the file. Throws Error(output) naming the path and the first
/// difference.
void check_cog(const std::filesystem::path& path, const Grid& grid, const MapFile& map,
               std::span<const StoredBand> bands);

void write_sites_geopackage(const std::filesystem::path& path, std::span<const Site> sites,
                            const Plan& plan);

[[nodiscard]] std::string png_bytes(int width, int height, std::span<const std::uint8_t> rgba);

/// GDAL's name of a cell's type.
template <typename T>
[[nodiscard]] constexpr GDALDataType cell_type() {
  if constexpr (std::is_same_v<T, float>) {
    return GDT_Float32;
  } else if constexpr (std::is_same_v<T, std::uint32_t>) {
    return GDT_UInt32;
  } else {
    static_assert(std::is_same_v<T, std::uint8_t>);
    return GDT_Byte;
  }
}

[[nodiscard]] inline GDALDataType cell_type(const MapBand& band) {
  return std::visit([](auto values) { return cell_type<typename decltype(values)::value_type>(); },
                    band.values);
}

/// The items "CATEGORY_64" -> "closed: eelgrass beds" of a map of codes. GDAL's own category names
/// and attribute tables have no place in a TIFF: its driver keeps them in a side file only, and no
/// side file is written.
[[nodiscard]] std::vector<std::pair<std::string, std::string>> category_items(const MapFile& map);

/// The colours of a map of codes.
[[nodiscard]] GDALColorTable colour_table(const MapFile& map);

}  // namespace tidelot::geoio
