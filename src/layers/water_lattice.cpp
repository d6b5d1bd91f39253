// SPDX-License-Identifier: Apache-2.0
#include "water_lattice.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

namespace tidelot {
namespace {

using Marks = GridVector<std::uint8_t>;

/// A row of blocks: which cells are water, and which belong to their block's main stretch.
class Strip {
 public:
  Strip(const Tile& tile, int block, const std::vector<float>& depth)
      : tile_(tile), block_(block), left_(depth.size()), main_(depth.size(), 0) {
    std::transform(depth.begin(), depth.end(), left_.begin(),
                   [](float d) { return static_cast<std::uint8_t>(d > 0.0F ? 1 : 0); });
    for (int col = 0; col < tile.cols; col += block) {
      mark_main(col);
    }
  }
  [[nodiscard]] bool main(int col, int row) const { return main_[index(col, row)] != 0; }
  [[nodiscard]] int rows() const { return tile_.rows; }
  [[nodiscard]] int cols() const { return tile_.cols; }

 private:
  [[nodiscard]] std::size_t index(int col, int row) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(tile_.cols) +
           static_cast<std::size_t>(col);
  }

  /// The water around a cell within its block, taken out of what is left.
  std::vector<Cell> stretch(Cell from, int col0) {
    const int end = std::min(col0 + block_, tile_.cols);
    std::vector<Cell> found;
    const auto visit = [&](Cell c) {
      const bool inside = c.col >= col0 && c.col < end && c.row >= 0 && c.row < tile_.rows;
      if (inside && left_[index(c.col, c.row)] != 0) {
        left_[index(c.col, c.row)] = 0;
        found.push_back(c);
      }
    };
    visit(from);
    for (std::size_t i = 0; i < found.size(); ++i) {
      const Cell c = found[i];
      visit({c.col + 1, c.row});
      visit({c.col - 1, c.row});
      visit({c.col, c.row + 1});
      visit({c.col, c.row - 1});
    }
    return found;
  }

  /// The first of the largest ones.
  void mark_main(int col0) {
    std::vector<Cell> largest;
    for (int row = 0; row < tile_.rows; ++row) {
      for (int col = col0; col < std::min(col0 + block_, tile_.cols); ++col) {
        std::vector<Cell> here = stretch({col, row}, col0);
        if (here.size() > largest.size()) {
          largest = std::move(here);
        }
      }
    }
    for (const Cell c : largest) {
      main_[index(c.col, c.row)] = 1;
    }
  }

  Tile tile_;
  int block_;
  Marks left_;
  Marks main_;
};

/// Fills the lattice's tables, one row of blocks after the other.
struct Tables {
  Grid lattice;
  int block;
  Marks water, right, below;

  Tables(const Grid& grid, int side)
      : lattice{grid.west,
                grid.north,
                grid.cell_m * side,
                (grid.cols + side - 1) / side,
                (grid.rows + side - 1) / side,
                grid.crs},
        block(side),
        water(lattice.size(), 0),
        right(lattice.size(), 0),
        below(lattice.size(), 0) {}

  void add(const Strip& strip, int lattice_row) {
    for (int col = 0; col < strip.cols(); ++col) {
      const std::size_t at = lattice.index(col / block, lattice_row);
      const bool last = (col + 1) % block == 0 && col + 1 < strip.cols();
      for (int row = 0; row < strip.rows(); ++row) {
        if (strip.main(col, row)) {
          water[at] = 1;
          right[at] = last && strip.main(col + 1, row) ? 1 : right[at];
        }
      }
    }
  }

  void join(const Strip& upper, const Strip& lower, int upper_row) {
    for (int col = 0; col < upper.cols(); ++col) {
      if (upper.main(col, upper.rows() - 1) && lower.main(col, 0)) {
        below[lattice.index(col / block, upper_row)] = 1;
      }
    }
  }
};

}  // namespace

int block_for(const Grid& grid, std::size_t max_cells) {
  int block = 1;
  const auto blocks = [&](int cells) {
    return static_cast<std::size_t>((cells + block - 1) / block);
  };
  while (blocks(grid.cols) * blocks(grid.rows) > max_cells) {
    ++block;
  }
  return block;
}

Waterway water_lattice(const Grid& grid, int block, const DepthOfTile& depth) {
  Tables tables(grid, block);
  std::vector<Strip> before;  // none or one
  for (int row = 0; row < tables.lattice.rows; ++row) {
    const Tile tile{0, row * block, grid.cols, std::min(block, grid.rows - row * block)};
    Strip strip(tile, block, depth(tile));
    tables.add(strip, row);
    if (!before.empty()) {
      tables.join(before.front(), strip, row - 1);
    }
    before.clear();
    before.push_back(std::move(strip));
  }
  return {std::move(tables.lattice), std::move(tables.water), tables.right, tables.below};
}

}  // namespace tidelot
