// SPDX-License-Identifier: Apache-2.0
#include "map_dataset.hpp"

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <memory>
#include <span>
#include <utility>
#include <vector>

#include "tidelot/core/grid_vector.hpp"

namespace tidelot::geoio {
namespace {

int divided(int cells, int factor) { return (cells + factor - 1) / factor; }

/// The cell of `cells` that the nth of `shown` shows: as GDAL picks the nearest.
int shown_cell(int nth, int cells, int shown) {
  return static_cast<int>(0.5 + nth * (static_cast<double>(cells) / shown));
}

class MapRasterBand;

/// The map, or one of its overviews, `factor` cells shown by one.
class MapDataset final : public GDALDataset {
 public:
  MapDataset(const Grid& grid, const MapFile& map, std::span<const StoredBand> bands, int factor);
  CPLErr GetGeoTransform(double* to) override {
    const double transform[6] = {grid_.west, grid_.cell_m, 0, grid_.north, 0, -grid_.cell_m};
    std::copy(transform, transform + 6, to);
    return CE_None;
  }
  const OGRSpatialReference* GetSpatialRef() const override { return &reference_; }

  [[nodiscard]] const Grid& grid() const { return grid_; }
  /// The columns of the grid that an overview shows; empty: all of them.
  [[nodiscard]] std::span<const std::uint32_t> columns() const { return columns_; }
  [[nodiscard]] const std::vector<std::unique_ptr<MapDataset>>& overviews() const {
    return overviews_;
  }

 private:
  const Grid& grid_;
  std::vector<std::uint32_t> columns_;
  OGRSpatialReference reference_;
  std::vector<std::unique_ptr<MapDataset>> overviews_;
};

class MapRasterBand final : public GDALRasterBand {
 public:
  MapRasterBand(MapDataset& of, int number, const MapFile& map, const StoredBand& cells)
      : of_(of), map_(map), asked_(map.bands[static_cast<std::size_t>(number) - 1]), cells_(cells) {
    poDS = &of;
    nBand = number;
    eDataType = cell_type(asked_);
    nRasterXSize = of.GetRasterXSize();
    nRasterYSize = of.GetRasterYSize();
    nBlockXSize = nRasterXSize;
    nBlockYSize = 1;
    if (!map.colours.empty()) {
      colours_ = std::make_unique<GDALColorTable>(colour_table(map));
    }
    SetDescription(asked_.description.c_str());
  }

  CPLErr IReadBlock(int, int row, void* to) override {
    read(0, row, nRasterXSize, to);
    return CE_None;
  }
  CPLErr IRasterIO(GDALRWFlag way, int col, int row, int cols, int rows, void* to, int to_cols,
                   int to_rows, GDALDataType type, GSpacing pixel_space, GSpacing line_space,
                   GDALRasterIOExtraArg* extra) override {
    const int bytes = GDALGetDataTypeSizeBytes(eDataType);
    if (way != GF_Read || cols != to_cols || rows != to_rows || type != eDataType ||
        pixel_space != bytes) {
      return GDALRasterBand::IRasterIO(way, col, row, cols, rows, to, to_cols, to_rows, type,
                                       pixel_space, line_space, extra);
    }
    for (int r = 0; r < rows; ++r) {
      read(col, row + r, cols, static_cast<char*>(to) + r * line_space);
    }
    return CE_None;
  }
  double GetNoDataValue(int* known) override {
    if (known != nullptr) {
      *known = TRUE;
    }
    return map_.nodata;
  }
  const char* GetUnitType() override { return asked_.unit.c_str(); }
  GDALColorTable* GetColorTable() override { return colours_.get(); }
  GDALColorInterp GetColorInterpretation() override {
    return colours_ ? GCI_PaletteIndex : GCI_Undefined;
  }
  int GetOverviewCount() override { return static_cast<int>(of_.overviews().size()); }
  GDALRasterBand* GetOverview(int level) override {
    return level < 0 || level >= GetOverviewCount()
               ? nullptr
               : of_.overviews()[static_cast<std::size_t>(level)]->GetRasterBand(nBand);
  }

 private:
  /// Cells of a row from col on.
  void read(int col, int row, int cols, void* to) const {
    const Grid& grid = of_.grid();
    const std::size_t first = grid.index(0, shown_cell(row, grid.rows, nRasterYSize));
    const std::span<const std::uint32_t> columns = of_.columns();
    const auto from = static_cast<std::size_t>(col);
    cells_.visit([&](auto at) {
      const std::span out(static_cast<decltype(at(first))*>(to), static_cast<std::size_t>(cols));
      for (std::size_t c = 0; c < out.size(); ++c) {
        out[c] = at(first + (columns.empty() ? from + c : columns[from + c]));
      }
      const std::size_t across =
          columns.empty() ? out.size() : columns[from + out.size() - 1] - columns[from] + 1;
      walked_over(across * sizeof(at(first)));
    });
  }

  MapDataset& of_;
  const MapFile& map_;
  const MapBand& asked_;
  const StoredBand& cells_;
  std::unique_ptr<GDALColorTable> colours_;
};

MapDataset::MapDataset(const Grid& grid, const MapFile& map, std::span<const StoredBand> bands,
                       int factor)
    : grid_(grid), reference_(make_reference(grid.crs, "crs", Fault::output)) {
  nRasterXSize = divided(grid.cols, factor);
  nRasterYSize = divided(grid.rows, factor);
  eAccess = GA_ReadOnly;
  for (int col = 0; factor > 1 && col < nRasterXSize; ++col) {
    columns_.push_back(static_cast<std::uint32_t>(shown_cell(col, grid.cols, nRasterXSize)));
  }
  for (std::size_t b = 0; b < bands.size(); ++b) {
    const int number = static_cast<int>(b) + 1;
    SetBand(number, new MapRasterBand(*this, number, map, bands[b]));
  }
  for (int f = 1; factor == 1 && divided(std::max(grid.cols, grid.rows), f) > kMapBlock;) {
    overviews_.push_back(std::make_unique<MapDataset>(grid, map, bands, f *= 2));
  }
}

}  // namespace

DatasetHandle map_dataset(const Grid& grid, const MapFile& map, std::span<const StoredBand> bands) {
  return DatasetHandle(new MapDataset(grid, map, bands, 1));
}

}  // namespace tidelot::geoio
