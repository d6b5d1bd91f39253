// SPDX-License-Identifier: Apache-2.0
// One rectangle anywhere on the grid, held against everything that a site must keep.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "sites/fit_memo.hpp"
#include "sites/footprint.hpp"
#include "sites/proximity.hpp"
#include "sites/setbacks.hpp"
#include "sites/site_box.hpp"

namespace tidelot {

/// What every place is held against; lengths in the grid's metres.
struct Siting {
  const Grid& grid;
  SiteSize size;
  double gap_m;
  const std::vector<Footprint>& footprints;
  const Setbacks& setbacks;
  const Proximity& proximity;
  const ScoredMaps& maps;
  std::span<const std::int16_t> along;  ///< as of degrees_along: the angle that a cell asks for
};

/// A rectangle and how good it is. A site may lie there where violation is 0.
struct Trial {
  XY centre;
  double angle_deg = 0.0;
  double violation = 0.0;  ///< barred cells under it, and what is missing to gaps, in cells
  std::int64_t score = 0;  ///< exact: whole_score of every cell by the share of it that is covered
};

/// Less violation first, then the higher score.
[[nodiscard]] bool better(const Trial& a, const Trial& b);

/// Tries rectangles of a site's size.
class Trials {
 public:
  /// taken: the gap to each is kept. All outlive it.
  Trials(const Siting& siting, const Fits& fits, const std::vector<SiteBox>& taken);
  /// What is better than `best`, worked out in full; else a trial that is not. best: none to beat.
  [[nodiscard]] Trial at(XY centre, double angle_deg, const Trial* best = nullptr) const;
  /// The angle that a place asks for; negative: any.
  [[nodiscard]] double angle_asked(XY centre) const;
  [[nodiscard]] double cell_m() const { return siting_.grid.cell_m; }

 private:
  [[nodiscard]] double known_violation(double unknown, double apart_only) const;
  [[nodiscard]] double gap_missing(const SiteBox& box) const;

  const Siting& siting_;
  const Fits& fits_;
  const std::vector<SiteBox>& taken_;
};

/// Months in which gear would lie at a place, by the cell of its centre; all where that is not
/// known.
[[nodiscard]] std::uint16_t season_at(const Grid& grid, const ScoredMaps& maps, XY centre);

/// By compass search: shifts along, across and askew by steps from first_m down to last_m, turns by
/// 8 degrees down to 1 where the place asks for no angle, every better place taken at once, halved
/// where there is none. Never worse than its start.
[[nodiscard]] Trial refined(const Trials& trials, Trial start, double first_m, double last_m);

}  // namespace tidelot
