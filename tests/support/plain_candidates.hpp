// SPDX-License-Identifier: Apache-2.0
// Every place of the lattice looked at, cell by cell: what the search that looks at few must hand
// out.
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
#include <span>
#include <vector>

#include "sites/candidates.hpp"

namespace tidelot::test {

class PlainCandidates {
 public:
  PlainCandidates(const Waters& waters, const std::vector<Footprint>& footprints, Wanted wanted,
                  std::span<const std::int16_t> along = {})
      : waters_(waters), wanted_(wanted) {
    for (int row = 0; row < waters.grid.rows; ++row) {
      for (int col = 0; col < waters.grid.cols; ++col) {
        if (lies_under(at(col, row))) {
          const int only = along.empty() ? -1 : along[waters.grid.index(col, row)];
          look_at(col, row, footprints, only);
        }
      }
    }
    std::sort(places.begin(), places.end(), ranks_before);
    std::sort(nearly.begin(), nearly.end(), ranks_before);
  }
  std::vector<Candidate> places;  ///< every angle that fits, the best first
  std::vector<Candidate> nearly;  ///< the best of each cell where none fits, the best first

 private:
  [[nodiscard]] Ground at(int col, int row) const {
    return waters_.grid.holds({col, row})
               ? ground_at(waters_.plan, waters_.maps, waters_.size, waters_.grid.index(col, row))
               : Ground::outside;
  }
  [[nodiscard]] static bool for_apart(Ground ground) {
    return ground == Ground::depth_unknown || ground == Ground::rule_unknown;
  }
  [[nodiscard]] bool lies_under(Ground ground) const {
    return !is_barred(ground) && (wanted_ == Wanted::apart || !for_apart(ground));
  }
  template <typename Visit>
  static void for_each(const std::vector<RowRun>& runs, int col, int row, Visit&& visit) {
    for (const RowRun& run : runs) {
      for (int c = col + run.first; c <= col + run.last; ++c) {
        visit(c, row + run.row);
      }
    }
  }

  [[nodiscard]] bool fits(int col, int row, const Footprint& footprint) const {
    bool allowed = true;
    bool apart = false;
    std::size_t unknown = 0;
    for_each(footprint.touched, col, row, [&](int c, int r) {
      allowed = allowed && lies_under(at(c, r));
      apart = apart || for_apart(at(c, r));
    });
    for_each(footprint.covered, col, row,
             [&](int c, int r) { unknown += at(c, r) > Ground::good ? 1 : 0; });
    const bool known =
        static_cast<double>(unknown) <= 0.2 * static_cast<double>(footprint.covered_cells) &&
        !apart;
    return allowed && known == (wanted_ == Wanted::ranked);
  }
  [[nodiscard]] bool nearly_fits(int col, int row, const Footprint& footprint) const {
    bool inside = true;
    std::size_t barred = 0;
    for_each(footprint.covered, col, row, [&](int c, int r) {
      inside = inside && waters_.grid.holds({c, r});
      barred += lies_under(at(c, r)) ? 0 : 1;
    });
    return inside && 8 * barred <= footprint.covered_cells;
  }
  [[nodiscard]] std::int64_t estimate(int col, int row, const Footprint& footprint) const {
    std::int64_t score = 0;
    for_each(footprint.covered, col, row, [&](int c, int r) {
      if (at(c, r) == Ground::good) {
        const std::size_t i = waters_.grid.index(c, r);
        score += whole_score(waters_.maps.suitability[i], waters_.maps.yield_kg_per_m[i]);
      }
    });
    return std::llround(static_cast<double>(score) * footprint.area_cells /
                        static_cast<double>(footprint.covered_cells));
  }

  void look_at(int col, int row, const std::vector<Footprint>& footprints, int only) {
    bool any = false;
    std::optional<Candidate> best;
    const int count = static_cast<int>(footprints.size());
    for (int angle = std::max(only, 0); angle < (only < 0 ? count : only + 1);
         angle += count / 12) {
      const Footprint& footprint = footprints[static_cast<std::size_t>(angle)];
      const Candidate here{estimate(col, row, footprint), row, col, angle};
      if (here.score > 0 && fits(col, row, footprint)) {
        places.push_back(here);
        any = true;
      }
      if (here.score > 0 && nearly_fits(col, row, footprint) &&
          (!best || ranks_before(here, *best))) {
        best = here;
      }
    }
    if (!any && best) {
      nearly.push_back(*best);
    }
  }

  const Waters& waters_;
  Wanted wanted_;
};

}  // namespace tidelot::test
