// SPDX-License-Identifier: Apache-2.0
// Positions of cell centres in a raster. Blocks of cells are quartered until the bilinear surface
// through their corners agrees with exact positions at the middles. Blocks begin at multiples of
// their side in the grid's system, not in the grid or the tile: a cell's position does not depend
// on how the grid is cut into tiles, nor on which grid it is a cell of.
#include "tidelot/layers/sampler.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "positions.hpp"
#include "stencil.hpp"

namespace tidelot {
namespace {

constexpr int kBlock = 64;           // cells
constexpr double kTolerance = 0.01;  // m on the ground
constexpr double kMetresPerDegree = 111320.0;
/// Positions are kept to 2^-26 of a pixel (3 mm of a two-degree one), so that rounding in PROJ does
/// not tell a raster on the grid itself from a raster beside it. Adding 1.5 x 2^26 leaves a double
/// just that many binary places.
constexpr double kPlaces = 100663296.0;

double rounded(double v) { return (v + kPlaces) - kPlaces; }

XY rounded(XY p) { return {rounded(p.x), rounded(p.y)}; }

/// From the raster's system to its pixels.
class Pixels {
 public:
  explicit Pixels(const RasterInfo& info)
      : g_(info.geotransform),
        determinant_(g_[1] * g_[5] - g_[2] * g_[4]),
        round_(columns_round_the_earth(info)),
        metres_(info.geographic ? kMetresPerDegree : 1.0),
        curves_(info.curves.get()) {}

  [[nodiscard]] XY of(XY p) const {
    if (curves_ != nullptr) {
      return curves_->locate(p);
    }
    const double x = p.x - g_[0];
    const double y = p.y - g_[3];
    return {(x * g_[5] - y * g_[2]) / determinant_, (y * g_[1] - x * g_[4]) / determinant_};
  }
  /// At most this far apart on the ground, m.
  [[nodiscard]] double distance(XY a, XY b) const {
    const double col = a.x - b.x;
    const double row = a.y - b.y;
    return metres_ * std::hypot(col * g_[1] + row * g_[2], col * g_[4] + row * g_[5]);
  }
  /// The column next to another one, where columns go round the earth.
  [[nodiscard]] XY near(XY p, XY other) const {
    return round_ > 0.0 ? XY{p.x - round_ * std::round((p.x - other.x) / round_), p.y} : p;
  }
  [[nodiscard]] XY wrapped(XY p) const {
    const bool outside = round_ > 0.0 && (p.x < 0.0 || p.x >= round_);
    return rounded(outside ? XY{p.x - round_ * std::floor(p.x / round_), p.y} : p);
  }

 private:
  std::array<double, 6> g_;
  double determinant_;
  double round_;
  double metres_;
  const CurvilinearGrid* curves_;
};

/// A square part of a block and the positions at its corners (the centres of the cells there).
struct Square {
  int col0, row0, side;
  std::array<XY, 4> at;  ///< upper left, upper right, lower left, lower right
};

XY blend(const Square& s, double u, double v) {
  const auto mix = [&](double a, double b, double c, double d) {
    return (a * (1 - u) + b * u) * (1 - v) + (c * (1 - u) + d * u) * v;
  };
  return {mix(s.at[0].x, s.at[1].x, s.at[2].x, s.at[3].x),
          mix(s.at[0].y, s.at[1].y, s.at[2].y, s.at[3].y)};
}

class Filler {
 public:
  Filler(const Grid& grid, const Tile& tile, Projector& projector, const RasterInfo& source,
         std::span<XY> out)
      : grid_(grid), tile_(tile), projector_(projector), pixels_(source), out_(out) {}

  void block(int col0, int row0) {
    std::array<XY, 4> at{grid_.centre(col0, row0), grid_.centre(col0 + kBlock, row0),
                         grid_.centre(col0, row0 + kBlock),
                         grid_.centre(col0 + kBlock, row0 + kBlock)};
    project(at);
    for (XY& p : at) {
      p = pixels_.near(p, at[0]);
    }
    square({col0, row0, kBlock, at});
  }

 private:
  void project(std::span<XY> points) {
    projector_.forward(points);
    for (XY& p : points) {
      p = pixels_.of(p);
    }
  }

  [[nodiscard]] bool touches_tile(const Square& s) const {
    return s.col0 < tile_.col0 + tile_.cols && s.col0 + s.side > tile_.col0 &&
           s.row0 < tile_.row0 + tile_.rows && s.row0 + s.side > tile_.row0;
  }

  void square(const Square& s) {
    if (!touches_tile(s)) {
      return;
    }
    if (s.side == 1) {
      put(s.col0, s.row0, s.at[0]);
      return;
    }
    const int half = s.side / 2;
    const int c = s.col0;
    const int r = s.row0;
    // the middle, and the middles of the upper, left, right and lower edges
    std::array<XY, 5> mid{grid_.centre(c + half, r + half), grid_.centre(c + half, r),
                          grid_.centre(c, r + half), grid_.centre(c + s.side, r + half),
                          grid_.centre(c + half, r + s.side)};
    project(mid);
    for (XY& p : mid) {
      p = pixels_.near(p, s.at[0]);
    }
    if (agrees(s, mid)) {
      fill(s);
      return;
    }
    square({c, r, half, {s.at[0], mid[1], mid[2], mid[0]}});
    square({c + half, r, half, {mid[1], s.at[1], mid[0], mid[3]}});
    square({c, r + half, half, {mid[2], mid[0], s.at[2], mid[4]}});
    square({c + half, r + half, half, {mid[0], mid[3], mid[4], s.at[3]}});
  }

  /// NaN never agrees, so what cannot be projected is asked for cell by cell.
  [[nodiscard]] bool agrees(const Square& s, const std::array<XY, 5>& mid) const {
    constexpr std::array<XY, 5> kAt{{{0.5, 0.5}, {0.5, 0}, {0, 0.5}, {1, 0.5}, {0.5, 1}}};
    for (std::size_t i = 0; i < mid.size(); ++i) {
      if (!(pixels_.distance(mid[i], blend(s, kAt[i].x, kAt[i].y)) <= kTolerance / 2)) {
        return false;
      }
    }
    return true;
  }

  void fill(const Square& s) {
    const double step = 1.0 / s.side;
    const int row1 = std::min(s.row0 + s.side, tile_.row0 + tile_.rows);
    const int col1 = std::min(s.col0 + s.side, tile_.col0 + tile_.cols);
    for (int row = std::max(s.row0, tile_.row0); row < row1; ++row) {
      const XY left = blend(s, 0.0, (row - s.row0) * step);
      const XY right = blend(s, 1.0, (row - s.row0) * step);
      for (int col = std::max(s.col0, tile_.col0); col < col1; ++col) {
        const double u = (col - s.col0) * step;
        put(col, row, {left.x + (right.x - left.x) * u, left.y + (right.y - left.y) * u});
      }
    }
  }

  void put(int col, int row, XY p) {
    const auto index =
        static_cast<std::size_t>(row - tile_.row0) * static_cast<std::size_t>(tile_.cols) +
        static_cast<std::size_t>(col - tile_.col0);
    out_[index] = pixels_.wrapped(p);
  }

  const Grid& grid_;
  const Tile& tile_;
  Projector& projector_;
  Pixels pixels_;
  std::span<XY> out_;
};

/// The first column (or row) at or before `first` where a block begins. before: the grid's own
/// first one, counted in cells from the origin of its system.
int block_start(int first, double before) {
  const double start = std::floor((before + first) / kBlock) * kBlock - before;
  return static_cast<int>(start);
}

std::vector<XY> centres(const Grid& grid, const Tile& tile) {
  std::vector<XY> points;
  points.reserve(tile.size());
  for (int row = tile.row0; row < tile.row0 + tile.rows; ++row) {
    for (int col = tile.col0; col < tile.col0 + tile.cols; ++col) {
      points.push_back(grid.centre(col, row));
    }
  }
  return points;
}

}  // namespace

std::vector<XY> exact_positions(std::span<const XY> points, Projector& grid_to_source,
                                const RasterInfo& source) {
  const Pixels pixels(source);
  std::vector<XY> positions(points.begin(), points.end());
  grid_to_source.forward(positions);
  for (XY& p : positions) {
    p = pixels.wrapped(pixels.of(p));
  }
  return positions;
}

std::vector<XY> source_positions(const Grid& grid, const Tile& tile, Projector& grid_to_source,
                                 const RasterInfo& source) {
  if (source.curves != nullptr) {
    return exact_positions(centres(grid, tile), grid_to_source, source);  // bends at every pixel
  }
  constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
  std::vector<XY> positions(tile.size(), XY{kNan, kNan});
  Filler filler(grid, tile, grid_to_source, source, positions);
  const int row_end = tile.row0 + tile.rows;
  const int col_end = tile.col0 + tile.cols;
  const int first_row = block_start(tile.row0, -std::round(grid.north / grid.cell_m));
  const int first_col = block_start(tile.col0, std::round(grid.west / grid.cell_m));
  for (int row = first_row; row < row_end; row += kBlock) {
    for (int col = first_col; col < col_end; col += kBlock) {
      filler.block(col, row);
    }
  }
  return positions;
}

}  // namespace tidelot
