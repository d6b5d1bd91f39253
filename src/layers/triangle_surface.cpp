// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>
#include <limits>

#include "surface.hpp"

namespace tidelot {
namespace {

constexpr int kBucket = 64;  // cells on a side; judgement: a tile has a few, a triangle few more

/// Rows and columns of cells, the ends included; empty where first > last.
struct Span {
  int first = 0;
  int last = -1;
  [[nodiscard]] bool empty() const { return first > last; }
};

/// Cells whose centres lie between two positions, counted in cells from the grid's edge. The span
/// is a cell wider at both ends than it has to be: the edges decide.
Span span_of(double from, double to, int count) {
  if (!(to >= -1.0 && from <= count + 1.0)) {
    return {};
  }
  return {static_cast<int>(std::max(0.0, std::floor(from - 1.0))),
          static_cast<int>(std::min(count - 1.0, std::ceil(to)))};
}

struct Corner {
  XY at;
  double value = 0.0;
  std::uint32_t place = 0;
};

using Triangle = std::array<Corner, 3>;

/// On which side of the edge from a to b a point lies: twice the area of the triangle they make.
/// Always worked out from the lower place to the higher one, so that the two triangles of an edge
/// get the same number with opposite signs, to the last bit.
double side(const Corner& a, const Corner& b, XY p) {
  const bool turned = b.place < a.place;
  const XY from = turned ? b.at : a.at;
  const XY to = turned ? a.at : b.at;
  const double twice = (to.x - from.x) * (p.y - from.y) - (to.y - from.y) * (p.x - from.x);
  return turned ? -twice : twice;
}

class TriangleSurface final : public Surface {
 public:
  TriangleSurface(const Grid& grid, const std::vector<XY>& places,
                  const std::vector<double>& values,
                  const std::vector<std::array<std::uint32_t, 3>>& triangles)
      : across_((grid.cols + kBucket - 1) / kBucket),
        buckets_(static_cast<std::size_t>(across_) *
                 static_cast<std::size_t>((grid.rows + kBucket - 1) / kBucket)) {
    for (const auto& nodes : triangles) {
      Triangle triangle;
      for (std::size_t i = 0; i < 3; ++i) {
        triangle[i] = {places[nodes[i]], values[nodes[i]], nodes[i]};
      }
      add(grid, triangle);
    }
  }

  void sample(const Grid& grid, const Tile& tile, std::span<float> out) const override {
    std::fill(out.begin(), out.end(), std::numeric_limits<float>::quiet_NaN());
    for (const std::uint32_t i : triangles_of(tile)) {
      fill(grid, tile, triangles_[i], out);
    }
  }

 private:
  static Span rows_of(const Grid& grid, const Triangle& t) {
    const auto [low, high] = std::minmax({t[0].at.y, t[1].at.y, t[2].at.y});
    return span_of((grid.north - high) / grid.cell_m, (grid.north - low) / grid.cell_m, grid.rows);
  }
  static Span cols_of(const Grid& grid, const Triangle& t) {
    const auto [low, high] = std::minmax({t[0].at.x, t[1].at.x, t[2].at.x});
    return span_of((low - grid.west) / grid.cell_m, (high - grid.west) / grid.cell_m, grid.cols);
  }

  void add(const Grid& grid, const Triangle& triangle) {
    const bool known = std::all_of(triangle.begin(), triangle.end(), [](const Corner& c) {
      return std::isfinite(c.at.x) && std::isfinite(c.at.y) && std::isfinite(c.value);
    });
    const Span rows = known ? rows_of(grid, triangle) : Span{};
    const Span cols = known ? cols_of(grid, triangle) : Span{};
    if (rows.empty() || cols.empty()) {
      return;
    }
    const auto index = static_cast<std::uint32_t>(triangles_.size());
    triangles_.push_back(triangle);
    for (int row = rows.first / kBucket; row <= rows.last / kBucket; ++row) {
      for (int col = cols.first / kBucket; col <= cols.last / kBucket; ++col) {
        buckets_[bucket(col, row)].push_back(index);
      }
    }
  }

  [[nodiscard]] std::size_t bucket(int col, int row) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(across_) +
           static_cast<std::size_t>(col);
  }

  /// In the order in which the file has them: the first decides on a shared edge.
  [[nodiscard]] std::vector<std::uint32_t> triangles_of(const Tile& tile) const {
    std::vector<std::uint32_t> found;
    for (int row = tile.row0 / kBucket; row <= (tile.row0 + tile.rows - 1) / kBucket; ++row) {
      for (int col = tile.col0 / kBucket; col <= (tile.col0 + tile.cols - 1) / kBucket; ++col) {
        const auto& here = buckets_[bucket(col, row)];
        found.insert(found.end(), here.begin(), here.end());
      }
    }
    std::sort(found.begin(), found.end());
    found.erase(std::unique(found.begin(), found.end()), found.end());
    return found;
  }

  static void fill(const Grid& grid, const Tile& tile, const Triangle& t, std::span<float> out) {
    const Span rows = rows_of(grid, t);
    const Span cols = cols_of(grid, t);
    const int last_row = std::min(rows.last, tile.row0 + tile.rows - 1);
    const int last_col = std::min(cols.last, tile.col0 + tile.cols - 1);
    for (int row = std::max(rows.first, tile.row0); row <= last_row; ++row) {
      for (int col = std::max(cols.first, tile.col0); col <= last_col; ++col) {
        float& cell =
            out[static_cast<std::size_t>(row - tile.row0) * static_cast<std::size_t>(tile.cols) +
                static_cast<std::size_t>(col - tile.col0)];
        if (std::isnan(cell)) {
          cell = value_in(t, grid.centre(col, row));
        }
      }
    }
  }

  /// The weight of each corner is the share of the triangle that lies across from it.
  static float value_in(const Triangle& t, XY p) {
    const double a = side(t[1], t[2], p);
    const double b = side(t[2], t[0], p);
    const double c = side(t[0], t[1], p);
    const bool inside = (a >= 0.0 && b >= 0.0 && c >= 0.0) || (a <= 0.0 && b <= 0.0 && c <= 0.0);
    const double whole = a + b + c;
    return inside && whole != 0.0
               ? static_cast<float>((a * t[0].value + b * t[1].value + c * t[2].value) / whole)
               : std::numeric_limits<float>::quiet_NaN();
  }

  int across_;
  std::vector<std::vector<std::uint32_t>> buckets_;
  std::vector<Triangle> triangles_;
};

}  // namespace

std::shared_ptr<const Surface> triangle_surface(
    const Grid& grid, const std::vector<XY>& places, const std::vector<double>& values,
    const std::vector<std::array<std::uint32_t, 3>>& triangles) {
  return std::make_shared<TriangleSurface>(grid, places, values, triangles);
}

}  // namespace tidelot
