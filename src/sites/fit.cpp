// SPDX-License-Identifier: Apache-2.0
#include "sites/fit.hpp"

#include <cmath>

namespace tidelot {

Outline inside(const SiteBox& box, const Grid& grid) {
  constexpr double kEdge = 1e-6;  // m
  return in_cells(box.inset(kEdge), grid);
}

Fit fit_of(const SiteBox& box, const Grid& grid, const GroundField& field) {
  Fit fit;
  double score = 0.0;
  for_each_covered(inside(box, grid), [&](int row, int first, int last, double share) {
    const int west = std::max(first, 0);
    const int east = row < 0 || row >= grid.rows ? west - 1 : std::min(last, grid.cols - 1);
    const int outside = last - first - std::max(-1, east - west);
    fit.barred += share * outside;
    if (west > east) {
      return;
    }
    fit.barred += share * field.barred(row, west, east);
    score += share * static_cast<double>(field.score(row, west, east));
    if (!field.all_known()) {
      fit.unknown += share * field.unknown(row, west, east);
      fit.apart_only += share * field.apart_only(row, west, east);
    }
  });
  fit.score = std::llround(score);
  return fit;
}

}  // namespace tidelot
