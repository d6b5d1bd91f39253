// SPDX-License-Identifier: Apache-2.0
#include "area_window.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "positions.hpp"
#include "stencil.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

constexpr int kLattice = 33;

/// A lattice of cell centres over the grid, edges included.
std::vector<XY> lattice(const Grid& grid) {
  std::vector<XY> points;
  for (int i = 0; i < kLattice; ++i) {
    for (int j = 0; j < kLattice; ++j) {
      const double col = static_cast<double>(grid.cols - 1) * j / (kLattice - 1);
      const double row = static_cast<double>(grid.rows - 1) * i / (kLattice - 1);
      points.push_back(
          {grid.west + (col + 0.5) * grid.cell_m, grid.north - (row + 0.5) * grid.cell_m});
    }
  }
  return points;
}

struct Range {
  double low = std::numeric_limits<double>::infinity();
  double high = -std::numeric_limits<double>::infinity();
  void add(double v) {
    low = std::min(low, v);
    high = std::max(high, v);
  }
  [[nodiscard]] bool empty() const { return low > high; }
};

/// The column nearest to the raster's middle of those that differ by whole rounds of the earth.
double near_middle(double col, const RasterInfo& info) {
  const double round = columns_round_the_earth(info);
  return round > 0.0 ? col - round * std::round((col - info.cols / 2.0) / round) : col;
}

/// First pixel and count of a range with a margin, inside 0..size. Between the lattice's points the
/// edge of the area bends by far less than a fiftieth of its width.
std::pair<int, int> pixels(const Range& range, int size) {
  const double margin = 3.0 + 0.02 * (range.high - range.low);
  const double first = std::max(0.0, std::floor(range.low - margin));
  const double end = std::min(double{1} * size, std::ceil(range.high + margin));
  return {static_cast<int>(first), static_cast<int>(end - first)};
}

double pixels_in_a_cell(const Grid& grid, Projector& projector, const RasterInfo& info) {
  const XY middle{grid.west + grid.cols / 2.0 * grid.cell_m,
                  grid.north - grid.rows / 2.0 * grid.cell_m};
  const auto p = exact_positions(
      std::vector<XY>{
          middle, {middle.x + grid.cell_m, middle.y}, {middle.x, middle.y - grid.cell_m}},
      projector, info);
  const double area = (p[1].x - p[0].x) * (p[2].y - p[0].y) - (p[2].x - p[0].x) * (p[1].y - p[0].y);
  return std::isfinite(area) ? std::abs(area) : 1.0;
}

bool holds(const LonLatBox& box, double lon, double lat) {
  const double east = lon < box.west ? lon + 360.0 : lon;
  return east >= box.west && east <= box.east && lat >= box.south && lat <= box.north;
}

std::string side(double degrees, const char* positive, const char* negative) {
  return fixed(std::abs(degrees), 4) + " " + (degrees < 0.0 ? negative : positive);
}

std::string text_of(const LonLatBox& box) {
  return fmt::format("{} to {}, {} to {}", side(box.west, "E", "W"), side(box.east, "E", "W"),
                     side(box.south, "N", "S"), side(box.north, "N", "S"));
}

}  // namespace

std::optional<AreaWindow> area_window(const Grid& grid, Projector& grid_to_source,
                                      const RasterInfo& info) {
  Range cols;
  Range rows;
  for (const XY& p : exact_positions(lattice(grid), grid_to_source, info)) {
    if (std::isfinite(p.x) && std::isfinite(p.y)) {
      cols.add(near_middle(p.x, info));
      rows.add(p.y);
    }
  }
  const bool apart = cols.empty() || cols.high < 0.0 || cols.low > info.cols || rows.high < 0.0 ||
                     rows.low > info.rows;
  if (apart) {
    return std::nullopt;
  }
  AreaWindow result;
  auto [col0, width] = pixels(cols, info.cols);
  const auto [row0, height] = pixels(rows, info.rows);
  result.whole_width = goes_round_the_earth(info) && (col0 == 0 || col0 + width == info.cols);
  if (result.whole_width) {
    col0 = 0;
    width = info.cols;
  }
  result.window = {col0, row0, width, height};
  result.pixels_per_cell = pixels_in_a_cell(grid, grid_to_source, info);
  return result;
}

RasterInfo cut(const RasterInfo& info, const Window& window, int bands) {
  RasterInfo part = info;
  const auto& g = info.geotransform;
  part.cols = window.cols;
  part.rows = window.rows;
  part.bands = bands;
  if (info.curves != nullptr) {
    part.curves = info.curves->cut(window.col0, window.row0, window.cols, window.rows);
    return part;
  }
  part.geotransform[0] = g[0] + window.col0 * g[1] + window.row0 * g[2];
  part.geotransform[3] = g[3] + window.col0 * g[4] + window.row0 * g[5];
  return part;
}

LonLatBox degrees_of(const RasterInfo& info, Projector& source_to_degrees) {
  std::vector<XY> points;
  const auto& g = info.geotransform;
  const bool curved = info.curves != nullptr;
  for (std::size_t i = 0; curved && i < info.curves->lon().size(); ++i) {
    points.push_back({info.curves->lon()[i], info.curves->lat()[i]});
  }
  for (int i = 0; !curved && i < kLattice; ++i) {
    for (int j = 0; j < kLattice; ++j) {
      const double col = static_cast<double>(info.cols) * j / (kLattice - 1);
      const double row = static_cast<double>(info.rows) * i / (kLattice - 1);
      points.push_back({g[0] + col * g[1] + row * g[2], g[3] + col * g[4] + row * g[5]});
    }
  }
  source_to_degrees.forward(points);
  Range lon;
  Range lat;
  for (const XY& p : points) {
    if (std::isfinite(p.x)) {
      lon.add(p.x);
      lat.add(p.y);
    }
  }
  return {lon.low, lat.low, lon.high, lat.high};
}

std::string no_overlap_text(const LonLatBox& layer, const LonLatBox& area) {
  const double lon = (area.west + area.east) / 2;
  const double lat = (area.south + area.north) / 2;
  const char* hint = holds(layer, lat, lon)    ? "; longitude and latitude look swapped"
                     : holds(layer, -lon, lat) ? "; a longitude's minus sign looks lost"
                     : holds(layer, lon, -lat) ? "; a latitude's minus sign looks lost"
                                               : "";
  return fmt::format(
      "does not overlap the area: it covers {}, the area {}{}; check area.bounds and "
      "the layer's reference system",
      text_of(layer), text_of(area), hint);
}

}  // namespace tidelot
