// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "disk_file.hpp"
#include "map_dataset.hpp"
#include "map_writer_parts.hpp"
#include "output_file.hpp"

namespace tidelot::geoio {
namespace {

/// What no plan can cause: a fault of the code.
void check_bands(const Grid& grid, const MapFile& map) {
  if (map.bands.empty()) {
    throw std::invalid_argument("a map needs a band");
  }
  for (const MapBand& band : map.bands) {
    const auto size = std::visit([](auto values) { return values.size(); }, band.values);
    if (size != grid.size() || cell_type(band) != cell_type(map.bands.front())) {
      throw std::invalid_argument("the bands of a map have the grid's size and one type");
    }
  }
}

/// Statistics and categories; false where GDAL does not take them.
bool describe(GDALRasterBand& out, const MapFile& map, const StoredBand& cells) {
  auto items = cells.items();
  const auto categories = category_items(map);
  items.insert(items.end(), categories.begin(), categories.end());
  return std::all_of(items.begin(), items.end(), [&](const auto& item) {
    return out.SetMetadataItem(item.first.c_str(), item.second.c_str()) == CE_None;
  });
}

bool describe(GDALDataset& out, const MapFile& map, std::span<const StoredBand> bands) {
  bool good = std::all_of(map.metadata.begin(), map.metadata.end(), [&](const auto& item) {
    return out.SetMetadataItem(item.first.c_str(), item.second.c_str()) == CE_None;
  });
  for (std::size_t b = 0; good && b < bands.size(); ++b) {
    good = describe(*out.GetRasterBand(static_cast<int>(b) + 1), map, bands[b]);
  }
  return good;
}

/// One thread: several maps are written side by side, and GDAL's complaints stay on the thread that
/// listens for them.
CPLStringList creation_options(MapCodec codec) {
  CPLStringList options;
  options.SetNameValue("COMPRESS", codec == MapCodec::zstd ? "ZSTD" : "DEFLATE");
  options.SetNameValue("LEVEL", fmt::format("{}", codec_level(codec)).c_str());
  options.SetNameValue("PREDICTOR", "YES");
  options.SetNameValue("BLOCKSIZE", fmt::format("{}", kMapBlock).c_str());
  options.SetNameValue("OVERVIEWS", "FORCE_USE_EXISTING");
  options.SetNameValue("NUM_THREADS", "1");
  options.SetNameValue("BIGTIFF", "IF_SAFER");
  return options;
}

bool copy_to_cog(GDALDataset& from, const std::string& to, MapCodec codec) {
  CPLStringList options = creation_options(codec);
  const DatasetHandle made(
      driver("COG").CreateCopy(to.c_str(), &from, TRUE, options.List(), nullptr, nullptr));
  return made != nullptr;
}

void build(const std::filesystem::path& path, const Grid& grid, const MapFile& map,
           std::span<const StoredBand> bands, DiskFile& file) {
  const Failures failures;
  const DatasetHandle cells = map_dataset(grid, map, bands);
  const bool good = describe(*cells, map, bands) && copy_to_cog(*cells, file.name(), map.codec);
  file.check();
  if (!good || failures.any()) {
    throw output_error(path, "the GeoTIFF could not be made", failures.text());
  }
}

}  // namespace

std::vector<std::pair<std::string, std::string>> category_items(const MapFile& map) {
  std::vector<std::pair<std::string, std::string>> items;
  for (std::size_t code = 0; code < map.categories.size(); ++code) {
    if (!map.categories[code].empty()) {
      items.emplace_back(fmt::format("CATEGORY_{}", code), map.categories[code]);
    }
  }
  return items;
}

GDALColorTable colour_table(const MapFile& map) {
  GDALColorTable table;
  for (std::size_t code = 0; code < map.colours.size(); ++code) {
    const MapColour& each = map.colours[code];
    const GDALColorEntry entry{each.r, each.g, each.b, 255};
    table.SetColorEntry(static_cast<int>(code), &entry);
  }
  return table;
}

void write_cog(const std::filesystem::path& path, const Grid& grid, const MapFile& map) {
  check_bands(grid, map);
  const std::vector<StoredBand> bands = stored_bands(map);
  DiskFile file(path);
  build(path, grid, map, bands, file);
  file.finish();
  check_cog(path, grid, map, bands);
  file.keep();
}

}  // namespace tidelot::geoio
