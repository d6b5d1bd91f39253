// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <map>
#include <utility>
#include <vector>

#include "tidelot/core/draws.hpp"
#include "tidelot/core/geometry.hpp"

namespace tidelot {

/// Standard normal deviates of many draws that are alike near by: each is normal at every place,
/// and the correlation between two places falls with their distance d as exp(-(d/length)^2), within
/// 0.05 (a cubic B-spline over a lattice of independent deviates; each node's draws are a Latin
/// hypercube). A function of seed, stream and place alone: the same whatever tile asks. Not for
/// several threads at once: the nodes met are kept.
class RandomField {
 public:
  RandomField(std::uint64_t seed, std::uint32_t stream, int draws, double length_m);
  /// The deviates of all draws at a place of the grid's system, m.
  [[nodiscard]] std::vector<float> at(XY place);

 private:
  [[nodiscard]] const std::vector<float>& node(std::int32_t column, std::int32_t row);

  std::uint64_t seed_;
  std::uint32_t stream_;
  int draws_;
  double spacing_m_;
  std::map<std::pair<std::int32_t, std::int32_t>, std::vector<float>> nodes_;
};

}  // namespace tidelot
