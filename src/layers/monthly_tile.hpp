// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <algorithm>
#include <vector>

#include "tidelot/core/calendar.hpp"
#include "tidelot/layers/layer_set.hpp"

namespace tidelot {

/// A month of a tile, the one there is where it is steady. Not for tiles given day by day.
[[nodiscard]] inline const std::vector<float>& month_in(const MonthlyTile& tile,
                                                        std::size_t month) {
  return tile.month[tile.steady ? 0 : month];
}

/// A day of a tile, 0..364; of a monthly one the month in which it lies.
[[nodiscard]] inline const std::vector<float>& day_in(const MonthlyTile& tile, std::size_t day) {
  return tile.day.empty()
             ? month_in(tile, static_cast<std::size_t>(month_of(static_cast<int>(day) + 1)))
             : tile.day[day];
}

/// Two tiles made one, cell by cell and month by month; steady where both are, day by day where one
/// is (the other's months then stand for each of their days).
template <typename With>
[[nodiscard]] MonthlyTile combined(const MonthlyTile& a, const MonthlyTile& b, With with) {
  const auto both = [&](const std::vector<float>& x, const std::vector<float>& y) {
    std::vector<float> out(x.size());
    std::transform(x.begin(), x.end(), y.begin(), out.begin(), with);
    return out;
  };
  MonthlyTile out;
  if (!a.day.empty() || !b.day.empty()) {
    for (std::size_t day = 0; day < kDaysPerYear; ++day) {
      out.day.push_back(both(day_in(a, day), day_in(b, day)));
    }
  } else {
    out.steady = a.steady && b.steady;
    for (std::size_t m = 0; m < (out.steady ? 1 : kMonths); ++m) {
      out.month[m] = both(month_in(a, m), month_in(b, m));
    }
  }
  out.share = a.share.empty() ? b.share : a.share;
  for (std::size_t i = 0; i < std::min(a.share.size(), b.share.size()); ++i) {
    out.share[i] = std::min(a.share[i], b.share[i]);
  }
  return out;
}

}  // namespace tidelot
