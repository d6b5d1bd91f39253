// SPDX-License-Identifier: Apache-2.0
// The most that a site may score anywhere near, so that the search need not look at places that
// cannot lead.
#pragma once

#include <cstdint>
#include <functional>

#include "tidelot/core/grid.hpp"
#include "tidelot/core/grid_vector.hpp"

namespace tidelot {

/// A square of cells and what lies around it.
struct Block {
  std::int64_t most = 0;   ///< of whole_score of any cell within reach; 0 where none is above it
  std::int64_t least = 0;  ///< likewise the least; far below 0 where a site may not lie on one
  int row = 0, col = 0;    ///< its first cell
};

/// Best and worst scores of a grid by squares of cells.
class Ceiling {
 public:
  static constexpr int kSide = 8;  ///< cells a block

  explicit Ceiling(const Grid& grid);
  /// A cell of good ground with its suitability times yield, kg/m; NaN counts as 0.
  void add_good(int col, int row, double suitability_yield);
  /// A cell of any other ground, or one of which too little is known here.
  void add_other(int col, int row) { least_[block_of(col, row)] = kNone; }
  /// Calls with every block and what lies within so many cells of any of its own, row by row. What
  /// lies beyond the grid counts as other ground.
  void for_each_block(int reach_cells, const std::function<void(const Block&)>& use) const;
  [[nodiscard]] std::size_t blocks() const { return most_.size(); }

 private:
  static constexpr double kNone = -1e6;  // kg/m; less than any cell's

  [[nodiscard]] std::size_t block_of(int col, int row) const {
    return static_cast<std::size_t>(row / kSide) * static_cast<std::size_t>(cols_) +
           static_cast<std::size_t>(col / kSide);
  }

  int cols_, rows_;                  // of blocks
  GridVector<double> most_, least_;  // of suitability times yield
};

}  // namespace tidelot
