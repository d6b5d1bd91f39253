// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <algorithm>
#include <concepts>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "tidelot/core/grid_vector.hpp"

namespace tidelot {

/// Cells to which another code of maps/closed.tif is given.
class ClosedChanges {
 public:
  /// cells: of the grid. Cells are added in order, each once.
  explicit ClosedChanges(std::size_t cells) : touched_(cells / kTogether + 1, false) {}
  void add(std::size_t cell, std::uint32_t code) {
    cells_.push_back(cell);
    codes_.push_back(code);
    touched_[cell / kTogether] = true;
  }
  [[nodiscard]] std::span<const std::size_t> cells() const { return cells_; }
  [[nodiscard]] std::span<const std::uint32_t> codes() const { return codes_; }
  /// The code of a cell; `planned` where it is none of them.
  [[nodiscard]] std::uint32_t code(std::size_t cell, std::uint32_t planned) const {
    if (!touched_[cell / kTogether]) {
      return planned;
    }
    const auto found = std::lower_bound(cells_.begin(), cells_.end(), cell);
    return found != cells_.end() && *found == cell
               ? codes_[static_cast<std::size_t>(found - cells_.begin())]
               : planned;
  }

 private:
  /// Cells that share a mark, so that most are told without a search.
  static constexpr std::size_t kTogether = 64;
  GridVector<std::size_t> cells_;
  GridVector<std::uint32_t> codes_;
  std::vector<bool> touched_;
};

/// The codes of maps/closed.tif, or the same with changes. Both outlive it.
class ClosedCells {
 public:
  ClosedCells() = default;
  // NOLINTNEXTLINE(google-explicit-constructor): it is one of the maps
  ClosedCells(const std::convertible_to<std::span<const std::uint32_t>> auto& codes)
      : planned_(codes) {}
  ClosedCells(std::span<const std::uint32_t> planned, const ClosedChanges& changes)
      : planned_(planned), changes_(&changes) {}
  [[nodiscard]] std::uint32_t operator[](std::size_t cell) const {
    return changes_ == nullptr ? planned_[cell] : changes_->code(cell, planned_[cell]);
  }
  [[nodiscard]] std::size_t size() const { return planned_.size(); }

 private:
  std::span<const std::uint32_t> planned_;
  const ClosedChanges* changes_ = nullptr;
};

}  // namespace tidelot
