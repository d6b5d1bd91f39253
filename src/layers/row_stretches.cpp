// SPDX-License-Identifier: Apache-2.0
#include "row_stretches.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace tidelot {
namespace {

/// Rows of the grid, the end not included.
struct Rows {
  int first = 0;
  int end = 0;
};

/// Rows whose line of centres may cross something between two heights.
Rows rows_between(const Grid& grid, double low, double high) {
  const double top = (grid.north - high) / grid.cell_m - 1.5;
  const double bottom = (grid.north - low) / grid.cell_m + 0.5;
  return {static_cast<int>(std::clamp(std::floor(top), 0.0, double{1} * grid.rows)),
          static_cast<int>(std::clamp(std::ceil(bottom), 0.0, double{1} * grid.rows))};
}

/// Where each row's line of centres crosses the edges of a polygon, rows counted from the first.
class Crossings {
 public:
  Crossings(const Grid& grid, const Polygon& polygon) : grid_(grid) {
    const auto [low, high] =
        std::minmax_element(polygon.outer.begin(), polygon.outer.end(),
                            [](const XY& a, const XY& b) { return a.y < b.y; });
    if (low != polygon.outer.end()) {
      rows_ = rows_between(grid, low->y, high->y);
    }
    at_.resize(static_cast<std::size_t>(std::max(0, rows_.end - rows_.first)));
    add(polygon.outer);
    for (const Path& hole : polygon.holes) {
      add(hole);
    }
  }

  void tell(const std::function<void(int, Stretch)>& tell) {
    for (std::size_t i = 0; i < at_.size(); ++i) {
      auto& xs = at_[i];
      std::sort(xs.begin(), xs.end());
      for (std::size_t k = 1; k < xs.size(); k += 2) {
        tell(rows_.first + static_cast<int>(i), {xs[k - 1], xs[k]});
      }
    }
  }

 private:
  void add(const Path& ring) {
    for (std::size_t i = 1; i < ring.size(); ++i) {
      const XY a = ring[i - 1];
      const XY b = ring[i];
      const Rows rows = rows_between(grid_, std::min(a.y, b.y), std::max(a.y, b.y));
      for (int row = std::max(rows.first, rows_.first); row < std::min(rows.end, rows_.end);
           ++row) {
        const double y = grid_.centre(0, row).y;
        if ((a.y > y) != (b.y > y)) {
          at_[static_cast<std::size_t>(row - rows_.first)].push_back(a.x + (y - a.y) * (b.x - a.x) /
                                                                               (b.y - a.y));
        }
      }
    }
  }

  const Grid& grid_;
  Rows rows_;
  std::vector<std::vector<double>> at_;
};

}  // namespace

void each_stretch(const Grid& grid, const Polygon& polygon,
                  const std::function<void(int row, Stretch stretch)>& tell) {
  Crossings(grid, polygon).tell(tell);
}

}  // namespace tidelot
