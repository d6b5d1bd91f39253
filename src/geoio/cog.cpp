// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <stdexcept>

#include "map_writer_parts.hpp"
#include "output_file.hpp"

namespace tidelot::geoio {
namespace {

constexpr const char* kMemoryName = "map.tif";

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

/// Lays a band of GDAL's over the cells, which are only read: nothing is copied.
bool lay_over(GDALDataset& out, const StoredBand& band) {
  return std::visit(
      [&](auto cells) {
        std::array<char, 64> text{};
        CPLPrintPointer(text.data(), const_cast<void*>(static_cast<const void*>(cells.data())),
                        static_cast<int>(text.size()) - 1);
        CPLStringList options;
        options.SetNameValue("DATAPOINTER", text.data());
        using Cell = typename decltype(cells)::value_type;
        return out.AddBand(cell_type<Cell>(), options.List()) == CE_None;
      },
      band.cells());
}

/// The colours of a map of codes, as a TIFF holds them: 256 of them, black where none is given.
bool colour(GDALRasterBand& out, const MapFile& map) {
  if (map.colours.empty()) {
    return true;
  }
  const GDALColorTable table = colour_table(map);
  return out.SetColorTable(const_cast<GDALColorTable*>(&table)) == CE_None;
}

bool describe(GDALRasterBand& out, const MapFile& map, const MapBand& band,
              const StoredBand& cells) {
  out.SetDescription(band.description.c_str());
  bool good =
      out.SetUnitType(band.unit.c_str()) == CE_None && out.SetNoDataValue(map.nodata) == CE_None;
  auto items = cells.items();
  const auto categories = category_items(map);
  items.insert(items.end(), categories.begin(), categories.end());
  for (const auto& [name, value] : items) {
    good = good && out.SetMetadataItem(name.c_str(), value.c_str()) == CE_None;
  }
  return good && colour(out, map);
}

bool place(GDALDataset& out, const Grid& grid) {
  double transform[6] = {grid.west, grid.cell_m, 0, grid.north, 0, -grid.cell_m};
  const OGRSpatialReference reference = make_reference(grid.crs, "crs", Fault::output);
  return out.SetGeoTransform(transform) == CE_None && out.SetSpatialRef(&reference) == CE_None;
}

bool fill_dataset(GDALDataset& out, const Grid& grid, const MapFile& map,
                  std::span<const StoredBand> bands) {
  bool good = place(out, grid);
  for (const auto& [name, value] : map.metadata) {
    good = good && out.SetMetadataItem(name.c_str(), value.c_str()) == CE_None;
  }
  for (std::size_t b = 0; good && b < bands.size(); ++b) {
    good = lay_over(out, bands[b]) &&
           describe(*out.GetRasterBand(static_cast<int>(b) + 1), map, map.bands[b], bands[b]);
  }
  return good;
}

/// Halved until one tile holds the whole map. They take the nearest cell: every value in them is
/// one of the map's (a mean of dates, codes or closed and open water is none), and nodata neither
/// spreads nor shrinks. Made here, in memory: the COG driver would build them in a packed file
/// first, which takes as long as all the rest.
bool add_overviews(GDALDataset& out, const Grid& grid) {
  std::vector<int> factors;
  for (int f = 1; (std::max(grid.cols, grid.rows) + f - 1) / f > kMapBlock;) {
    factors.push_back(f *= 2);
  }
  return factors.empty() ||
         out.BuildOverviews("NEAREST", static_cast<int>(factors.size()), factors.data(), 0, nullptr,
                            nullptr, nullptr, nullptr) == CE_None;
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

void build(const std::filesystem::path& path, const std::string& memory_path, const Grid& grid,
           const MapFile& map, std::span<const StoredBand> bands) {
  const Failures failures;
  const DatasetHandle cells(
      driver("MEM").Create("", grid.cols, grid.rows, 0, cell_type(map.bands.front()), nullptr));
  const bool good = cells != nullptr && fill_dataset(*cells, grid, map, bands) &&
                    add_overviews(*cells, grid) && copy_to_cog(*cells, memory_path, map.codec);
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
  const MemoryFolder folder;
  build(path, folder.path(kMemoryName), grid, map, bands);
  NewFile file(path, folder.bytes(kMemoryName));
  check_cog(path, grid, map, bands);
  file.keep();
}

}  // namespace tidelot::geoio
