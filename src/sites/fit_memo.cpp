// SPDX-License-Identifier: Apache-2.0
#include "sites/fit_memo.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

namespace tidelot {
namespace {

constexpr int kSide = 8;                              // cells a block
constexpr std::size_t kMost = std::size_t{1} << 18U;  // fits; bounds the memory at some 25 MB

}  // namespace

std::size_t BoxKeyHash::operator()(const BoxKey& key) const {
  std::uint64_t hash = 0;
  for (const double value : {key.centre.x, key.centre.y, key.angle_deg}) {
    hash = (hash ^ std::bit_cast<std::uint64_t>(value + 0.0)) * 0x9E3779B97F4A7C15U;
    hash ^= hash >> 29U;
  }
  return hash;
}

ChangedBlocks::ChangedBlocks(const Grid& grid)
    : grid_(grid),
      cols_((grid.cols + kSide - 1) / kSide),
      changed_(static_cast<std::size_t>(cols_) *
                   static_cast<std::size_t>((grid.rows + kSide - 1) / kSide),
               0) {}

std::size_t ChangedBlocks::block_of(int col, int row) const {
  return static_cast<std::size_t>(row / kSide) * static_cast<std::size_t>(cols_) +
         static_cast<std::size_t>(col / kSide);
}

bool ChangedBlocks::under(const SiteBox& box) const {
  const XY c = box.centre();
  const double reach = box.reach_m() + grid_.cell_m;
  const Cell north_west = grid_.cell_of({c.x - reach, c.y + reach});
  const Cell south_east = grid_.cell_of({c.x + reach, c.y - reach});
  const int last_row = std::min(south_east.row, grid_.rows - 1) / kSide;
  const int last_col = std::min(south_east.col, grid_.cols - 1) / kSide;
  for (int row = std::max(north_west.row, 0) / kSide; row <= last_row; ++row) {
    for (int col = std::max(north_west.col, 0) / kSide; col <= last_col; ++col) {
      if (changed_[block_of(col * kSide, row * kSide)] != 0) {
        return true;
      }
    }
  }
  return false;
}

Fit Fits::of(const BoxKey& key, const SiteBox& box, const Grid& grid) const {
  if (before_ != nullptr) {
    const auto known = before_->find(key);
    if (known != before_->end() && !changed_->under(box)) {
      return known->second;
    }
  }
  const auto known = own_.find(key);
  if (known != own_.end()) {
    return known->second;
  }
  const Fit fit = fit_of(box, grid, field_);
  if (own_.size() < kMost) {
    own_.emplace(key, fit);
  }
  return fit;
}

}  // namespace tidelot
