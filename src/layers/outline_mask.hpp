// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <vector>

#include "row_stretches.hpp"
#include "tidelot/core/grid.hpp"
#include "tidelot/layers/opener.hpp"

namespace tidelot {

/// Which cells have their centre inside polygons, kept as stretches of each row of the grid. The
/// same rule as contains().
class OutlineMask {
 public:
  OutlineMask() = default;
  OutlineMask(const Grid& grid, const std::vector<Feature>& features);
  /// 1 inside; 1 everywhere where there is no outline.
  [[nodiscard]] std::vector<std::uint8_t> inside(const Grid& grid, const Tile& tile) const;
  [[nodiscard]] bool is_given() const { return given_; }

 private:
  bool given_ = false;
  std::vector<std::vector<Stretch>> rows_;
};

}  // namespace tidelot
