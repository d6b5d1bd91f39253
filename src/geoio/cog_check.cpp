// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cstring>

#include "band_statistics.hpp"
#include "map_writer_parts.hpp"
#include "output_file.hpp"

namespace tidelot::geoio {
namespace {

/// The text of a C string of GDAL's, "" for none.
std::string text_of(const char* text) { return text != nullptr ? text : ""; }

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
    return text_of(file.GetMetadataItem(item.first.c_str())) == item.second;
  });
}

bool same_items(GDALRasterBand& found, const MapFile& map, const MapBand& asked) {
  auto items = statistics_items(asked, map.nodata);
  const auto categories = category_items(map);
  items.insert(items.end(), categories.begin(), categories.end());
  return std::all_of(items.begin(), items.end(), [&](const auto& item) {
    return text_of(found.GetMetadataItem(item.first.c_str())) == item.second;
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

bool same_description(GDALRasterBand& found, const MapFile& map, const MapBand& asked) {
  return found.GetRasterDataType() == cell_type(asked) &&
         text_of(found.GetDescription()) == asked.description &&
         text_of(found.GetUnitType()) == asked.unit && same_items(found, map, asked) &&
         same_colours(found, map);
}

bool same_nodata(GDALRasterBand& found, const MapFile& map) {
  int has_nodata = FALSE;
  return found.GetNoDataValue(&has_nodata) == map.nodata && has_nodata != FALSE;
}

/// Bit by bit, so that -0 is not taken for 0.
template <typename T>
bool same_rows(std::span<const T> asked, std::span<const T> found, const Storage& storage) {
  return std::equal(asked.begin(), asked.end(), found.begin(), found.end(), [&](T a, T f) {
    const T value = stored(a, storage);
    return std::memcmp(&value, &f, sizeof(T)) == 0;
  });
}

/// A row of tiles at a time, so that none is decoded twice.
template <typename T>
bool same_cells(GDALRasterBand& band, const Grid& grid, std::span<const T> asked,
                const Storage& storage) {
  std::vector<T> found;
  for (int row = 0; row < grid.rows; row += kMapBlock) {
    const int rows = std::min(kMapBlock, grid.rows - row);
    found.resize(static_cast<std::size_t>(rows) * static_cast<std::size_t>(grid.cols));
    if (band.RasterIO(GF_Read, 0, row, grid.cols, rows, found.data(), grid.cols, rows,
                      cell_type<T>(), 0, 0, nullptr) != CE_None ||
        !same_rows(asked.subspan(grid.index(0, row), found.size()), std::span<const T>(found),
                   storage)) {
      return false;
    }
  }
  return true;
}

/// What differs in one band, "" when nothing does.
std::string band_difference(GDALRasterBand& found, const Grid& grid, const MapFile& map,
                            const MapBand& asked) {
  if (!same_description(found, map, asked)) {
    return "description";
  }
  if (!same_nodata(found, map)) {
    return "nodata value";
  }
  const bool same = std::visit(
      [&](auto values) {
        return same_cells(found, grid, values, {map.nodata, asked.digits});
      },
      asked.values);
  return same ? "" : "cells";
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

std::string difference(GDALDataset& file, const Grid& grid, const MapFile& map) {
  std::string found = dataset_difference(file, grid, map);
  for (std::size_t b = 0; found.empty() && b < map.bands.size(); ++b) {
    const int number = static_cast<int>(b) + 1;
    found = band_difference(*file.GetRasterBand(number), grid, map, map.bands[b]);
    if (!found.empty()) {
      found += fmt::format(" of band {}", number);
    }
  }
  return found;
}

}  // namespace

void check_cog(const std::filesystem::path& path, const Grid& grid, const MapFile& map) {
  const Failures failures;
  const DatasetHandle file = open_again(path);
  if (file == nullptr) {
    throw output_error(path, "the GeoTIFF just written cannot be opened again", failures.text());
  }
  const std::string different = difference(*file, grid, map);
  if (!different.empty() || failures.any()) {
    throw output_error(path, "the GeoTIFF reads back differently from what was written",
                       different.empty() ? failures.text() : different);
  }
}

}  // namespace tidelot::geoio
