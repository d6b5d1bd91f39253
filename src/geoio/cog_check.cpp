// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstring>

#include "map_writer_parts.hpp"
#include "output_file.hpp"
#include "tidelot/core/grid_vector.hpp"

namespace tidelot::geoio {
namespace {

/// The text of a C string of GDAL's, "" for none.
std::string text_of(const char* text) { return text != nullptr ? text : ""; }

std::string_view without_blanks(std::string_view text) {
  const std::size_t first = std::min(text.find_first_not_of(' '), text.size());
  return text.substr(first, text.find_last_not_of(' ') + 1 - first);
}

/// The XML in which a GeoTIFF keeps its texts does not keep the blanks before them.
bool same_text(const char* found, std::string_view asked) {
  const std::string text = text_of(found);
  return without_blanks(text) == without_blanks(asked);
}

DatasetHandle open_again(const std::filesystem::path& path) {
  const char* const drivers[] = {"GTiff", nullptr};
  return DatasetHandle(GDALDataset::Open(path.c_str(), GDAL_OF_RASTER | GDAL_OF_READONLY, drivers));
}

bool same_transform(GDALDataset& file, const Grid& grid) {
  const double asked[6] = {grid.west, grid.cell_m, 0, grid.north, 0, -grid.cell_m};
  double found[6] = {};
  return file.GetGeoTransform(found) == CE_None && std::equal(asked, asked + 6, found);
}

bool same_reference(GDALDataset& file, const Grid& grid) {
  const OGRSpatialReference* found = file.GetSpatialRef();
  const OGRSpatialReference asked = make_reference(grid.crs, "crs", Fault::output);
  return found != nullptr && with_traditional_axes(*found).IsSame(&asked) != FALSE;
}

bool same_metadata(GDALDataset& file, const MapFile& map) {
  return std::all_of(map.metadata.begin(), map.metadata.end(), [&](const auto& item) {
    return same_text(file.GetMetadataItem(item.first.c_str()), item.second);
  });
}

bool same_items(GDALRasterBand& found, const MapFile& map, const StoredBand& asked) {
  auto items = asked.items();
  const auto categories = category_items(map);
  items.insert(items.end(), categories.begin(), categories.end());
  return std::all_of(items.begin(), items.end(), [&](const auto& item) {
    return same_text(found.GetMetadataItem(item.first.c_str()), item.second);
  });
}

/// The colours that were asked for; how clear they are is no part of a TIFF.
bool same_colours(GDALRasterBand& found, const MapFile& map) {
  const GDALColorTable* table = found.GetColorTable();
  if (map.colours.empty() || table == nullptr) {
    return map.colours.empty() && table == nullptr;
  }
  const GDALColorTable asked = colour_table(map);
  for (int code = 0; code < asked.GetColorEntryCount(); ++code) {
    const GDALColorEntry* a = asked.GetColorEntry(code);
    const GDALColorEntry* f = table->GetColorEntry(code);
    if (f == nullptr || a->c1 != f->c1 || a->c2 != f->c2 || a->c3 != f->c3) {
      return false;
    }
  }
  return true;
}

bool same_description(GDALRasterBand& found, const MapFile& map, const MapBand& asked,
                      const StoredBand& cells) {
  return found.GetRasterDataType() == cell_type(asked) &&
         text_of(found.GetDescription()) == asked.description &&
         text_of(found.GetUnitType()) == asked.unit && same_items(found, map, cells) &&
         same_colours(found, map);
}

bool same_nodata(GDALRasterBand& found, const MapFile& map) {
  int has_nodata = FALSE;
  return found.GetNoDataValue(&has_nodata) == map.nodata && has_nodata != FALSE;
}

/// A block of GDAL's cache, let go with the object.
class Block {
 public:
  Block(GDALRasterBand& band, int x, int y) : block_(band.GetLockedBlockRef(x, y)) {}
  ~Block() {
    if (block_ != nullptr) {
      block_->DropLock();
    }
  }
  Block(const Block&) = delete;
  Block& operator=(const Block&) = delete;
  template <typename T>
  [[nodiscard]] const T* cells() const {
    return block_ != nullptr ? static_cast<const T*>(block_->GetDataRef()) : nullptr;
  }

 private:
  GDALRasterBlock* block_;
};

/// One tile where GDAL unpacked it, bit by bit, so that -0 is not taken for 0.
template <typename At>
bool same_tile(GDALRasterBand& band, const Grid& grid, const At& at, int x, int y) {
  using T = decltype(at(0));
  const Block block(band, x, y);
  const T* found = block.cells<T>();
  const int col = x * kMapBlock;
  const auto cols = static_cast<std::size_t>(std::min(kMapBlock, grid.cols - col));
  const int rows = std::min(kMapBlock, grid.rows - y * kMapBlock);
  std::array<T, kMapBlock> asked;
  for (int r = 0; found != nullptr && r < rows; ++r) {
    const std::size_t first = grid.index(col, y * kMapBlock + r);
    for (std::size_t c = 0; c < cols; ++c) {
      asked[c] = at(first + c);
    }
    if (std::memcmp(found + static_cast<std::ptrdiff_t>(r) * kMapBlock, asked.data(),
                    cols * sizeof(T)) != 0) {
      return false;
    }
  }
  walked_over(cols * static_cast<std::size_t>(rows) * sizeof(T));
  return found != nullptr;
}

bool same_tile(GDALRasterBand& band, const Grid& grid, const StoredBand& asked, int x, int y) {
  return asked.visit([&](auto at) { return same_tile(band, grid, at, x, y); });
}

/// The number of the first band with another cell, 0 for none. The bands of a tile lie together, so
/// that none is unpacked twice.
int band_of_other_cells(GDALDataset& file, const Grid& grid, std::span<const StoredBand> asked) {
  const int bands = file.GetRasterCount();
  for (int y = 0; y * kMapBlock < grid.rows; ++y) {
    for (int x = 0; x * kMapBlock < grid.cols; ++x) {
      for (int b = 0; b < bands; ++b) {
        if (!same_tile(*file.GetRasterBand(b + 1), grid, asked[static_cast<std::size_t>(b)], x,
                       y)) {
          return b + 1;
        }
      }
    }
  }
  return 0;
}

/// What differs in one band but its cells, "" when nothing does.
std::string band_difference(GDALRasterBand& found, const MapFile& map, const MapBand& asked,
                            const StoredBand& cells) {
  int cols = 0;
  int rows = 0;
  found.GetBlockSize(&cols, &rows);
  if (cols != kMapBlock || rows != kMapBlock) {
    return "tiles";
  }
  if (!same_description(found, map, asked, cells)) {
    return "description";
  }
  return same_nodata(found, map) ? "" : "nodata value";
}

std::string dataset_difference(GDALDataset& file, const Grid& grid, const MapFile& map) {
  if (file.GetRasterXSize() != grid.cols || file.GetRasterYSize() != grid.rows ||
      file.GetRasterCount() != static_cast<int>(map.bands.size())) {
    return "size";
  }
  if (!same_transform(file, grid)) {
    return "position";
  }
  if (!same_reference(file, grid)) {
    return "reference system";
  }
  return same_metadata(file, map) ? "" : "metadata";
}

std::string difference(GDALDataset& file, const Grid& grid, const MapFile& map,
                       std::span<const StoredBand> bands) {
  std::string found = dataset_difference(file, grid, map);
  if (!found.empty()) {
    return found;
  }
  for (std::size_t b = 0; b < map.bands.size(); ++b) {
    const int number = static_cast<int>(b) + 1;
    found = band_difference(*file.GetRasterBand(number), map, map.bands[b], bands[b]);
    if (!found.empty()) {
      return fmt::format("{} of band {}", found, number);
    }
  }
  const int other = band_of_other_cells(file, grid, bands);
  return other == 0 ? "" : fmt::format("cells of band {}", other);
}

}  // namespace

void check_cog(const std::filesystem::path& path, const Grid& grid, const MapFile& map,
               std::span<const StoredBand> bands) {
  const Failures failures;
  const DatasetHandle file = open_again(path);
  if (file == nullptr) {
    throw output_error(path, "the GeoTIFF just written cannot be opened again", failures.text());
  }
  const std::string different = difference(*file, grid, map, bands);
  if (!different.empty() || failures.any()) {
    throw output_error(path, "the GeoTIFF reads back differently from what was written",
                       different.empty() ? failures.text() : different);
  }
}

}  // namespace tidelot::geoio
