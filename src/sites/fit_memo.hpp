// SPDX-License-Identifier: Apache-2.0
// Places are refined again and again from the same starts: for one site after another, and for the
// same water under other rules. What lies under a box is worked out once.
#pragma once

#include <cstdint>
#include <unordered_map>
#include <vector>

#include "sites/fit.hpp"
#include "tidelot/core/grid_vector.hpp"

namespace tidelot {

/// Centre and bearing of a box.
struct BoxKey {
  XY centre;
  double angle_deg = 0.0;
  bool operator==(const BoxKey& other) const {
    return centre.x == other.centre.x && centre.y == other.centre.y && angle_deg == other.angle_deg;
  }
};

struct BoxKeyHash {
  std::size_t operator()(const BoxKey& key) const;
};

/// Fits of boxes of one size on one field.
using FitMemo = std::unordered_map<BoxKey, Fit, BoxKeyHash>;

/// Where a field differs from another one of the same grid, by squares of cells.
class ChangedBlocks {
 public:
  explicit ChangedBlocks(const Grid& grid);
  void add(int col, int row) { changed_[block_of(col, row)] = 1; }
  /// May a cell under the box, or beside it, have changed?
  [[nodiscard]] bool under(const SiteBox& box) const;

 private:
  [[nodiscard]] std::size_t block_of(int col, int row) const;
  const Grid& grid_;
  int cols_;
  GridVector<std::uint8_t> changed_;
};

/// What lies under boxes of one size on a field, remembered.
class Fits {
 public:
  explicit Fits(const GroundField& field, FitMemo& own) : field_(field), own_(own) {}
  /// On a field that differs from the one of `before` only where changed says so. All outlive it.
  Fits(const GroundField& field, FitMemo& own, const FitMemo& before, const ChangedBlocks& changed)
      : field_(field), own_(own), before_(&before), changed_(&changed) {}
  [[nodiscard]] const GroundField& field() const { return field_; }
  /// fit_of(box); the key is the box's.
  [[nodiscard]] Fit of(const BoxKey& key, const SiteBox& box, const Grid& grid) const;

 private:
  const GroundField& field_;
  FitMemo& own_;
  const FitMemo* before_ = nullptr;
  const ChangedBlocks* changed_ = nullptr;
};

}  // namespace tidelot
