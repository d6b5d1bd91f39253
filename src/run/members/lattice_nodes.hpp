// SPDX-License-Identifier: Apache-2.0
// The cells of a ground in which all members are grown.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "run/members/member_lattice.hpp"

namespace tidelot::run {

/// All members of some cells. Row r belongs to the r-th cell grown.
class MemberRows {
 public:
  MemberRows(const MemberGround& ground, const Members& members, LayerDraws& draws);

  /// Adds rows for the cells, in their order.
  void grow(std::span<const std::uint32_t> cells);
  void clear();

  [[nodiscard]] std::size_t size() const { return figures_.size(); }
  [[nodiscard]] std::size_t stride() const { return stride_; }
  /// g/m, net; NaN: no season, and in the places beyond the last member.
  [[nodiscard]] const float* yield(std::size_t row) const { return &yield_[row * stride_]; }
  [[nodiscard]] const SpreadFigures& figures(std::size_t row) const { return figures_[row]; }

 private:
  const MemberGround& ground_;
  const Members& members_;
  LayerDraws& draws_;
  std::size_t stride_;
  std::vector<float> yield_;
  std::vector<SpreadFigures> figures_;
};

/// The crop that a tolerance is a share of: fresh weight and nitrogen hauled, g/m.
[[nodiscard]] std::array<float, 2> crop_of(const SpreadFigures& figures, const Stocked& stocked);

}  // namespace tidelot::run
