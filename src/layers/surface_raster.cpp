// SPDX-License-Identifier: Apache-2.0
#include "surface_raster.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>
#include <vector>

namespace tidelot {
namespace {

constexpr float kNan = std::numeric_limits<float>::quiet_NaN();
constexpr int kNoCornerBelowHalf = 2;  // cells a block: the outermost centres keep 0.75 x 0.75

/// A lattice with a rim of one block around, without values.
std::vector<float> with_rim(const std::vector<float>& values, const Grid& inner,
                            const Grid& outer) {
  std::vector<float> out(outer.size(), kNan);
  for (int row = 0; row < inner.rows; ++row) {
    std::copy_n(values.begin() + static_cast<std::ptrdiff_t>(inner.index(0, row)), inner.cols,
                out.begin() + static_cast<std::ptrdiff_t>(outer.index(1, row + 1)));
  }
  return out;
}

/// Where a block with a value has none beside it on two sides of a corner, nor across it, the two
/// beside it take its value (the mean, where several blocks want it).
void fill_corners(const Grid& grid, std::vector<float>& values) {
  std::vector<double> sum(values.size(), 0.0);
  std::vector<int> count(values.size(), 0);
  const auto is_empty = [&](int col, int row) { return std::isnan(values[grid.index(col, row)]); };
  for (int row = 1; row + 1 < grid.rows; ++row) {
    for (int col = 1; col + 1 < grid.cols; ++col) {
      for (const auto [dx, dy] : {Cell{1, 1}, Cell{1, -1}, Cell{-1, 1}, Cell{-1, -1}}) {
        if (is_empty(col, row) || !is_empty(col + dx, row) || !is_empty(col, row + dy) ||
            !is_empty(col + dx, row + dy)) {
          continue;
        }
        for (const std::size_t at : {grid.index(col + dx, row), grid.index(col, row + dy)}) {
          sum[at] += static_cast<double>(values[grid.index(col, row)]);
          ++count[at];
        }
      }
    }
  }
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (count[i] > 0) {
      values[i] = static_cast<float>(sum[i] / count[i]);
    }
  }
}

}  // namespace

std::unique_ptr<MemoryRaster> surface_raster(const Surfaces& surfaces, const Grid& lattice,
                                             int block) {
  const bool rim = block > kNoCornerBelowHalf;
  Grid grid = lattice;
  if (rim) {
    grid = {lattice.west - lattice.cell_m,
            lattice.north + lattice.cell_m,
            lattice.cell_m,
            lattice.cols + 2,
            lattice.rows + 2,
            lattice.crs};
  }
  RasterInfo info;
  info.cols = grid.cols;
  info.rows = grid.rows;
  info.bands = kMonths;
  info.geotransform = {grid.west, grid.cell_m, 0, grid.north, 0, -grid.cell_m};
  info.crs = grid.crs;
  info.format = "stations";
  auto values = std::make_shared<std::vector<float>>();
  for (const std::vector<float>& month : surfaces.month) {
    std::vector<float> band = rim ? with_rim(month, lattice, grid) : month;
    if (rim) {
      fill_corners(grid, band);
    }
    values->insert(values->end(), band.begin(), band.end());
  }
  return std::make_unique<MemoryRaster>(std::move(info), std::move(values));
}

}  // namespace tidelot
