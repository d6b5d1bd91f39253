// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "sites/ceiling.hpp"
#include "sites/field.hpp"
#include "sites/footprint.hpp"
#include "tidelot/core/grid_vector.hpp"

namespace tidelot {

/// A place of the lattice of cell centres and angles where a site fits, or nearly. angle: index
/// into the footprints.
struct Candidate {
  /// The mean whole_score of the covered cells times the site's area in cells: near to the exact
  /// score, and found in a few steps.
  std::int64_t score = 0;
  int row = 0;
  int col = 0;
  int angle = 0;
};

/// The order of the ranking: by score, then by row, column and angle.
[[nodiscard]] bool ranks_before(const Candidate& a, const Candidate& b);

/// Footprints at `count` angles from 0 to 180 degrees, a multiple of the twelve that are tried
/// where nothing says which way to lie. size in the grid's metres.
[[nodiscard]] std::vector<Footprint> footprints_of(const SiteSize& size, double cell_m,
                                                   int count = 12);

/// Hands out the places where a site fits, the best first. The grid is looked at block by block,
/// those that may hold the best place first, and no further than is asked for. Only the best angle
/// of each cell is kept; the next one is found again when it is asked for, so memory is bounded by
/// the cells.
class Candidates {
 public:
  /// along: the one footprint that a cell tries, -1: all twelve; empty: all twelve everywhere.
  /// All but the ceiling outlive it.
  Candidates(const Grid& grid, const GroundField& field, const std::vector<Footprint>& footprints,
             const Ceiling& ceiling, std::span<const std::int16_t> along = {});
  /// Places times angles that fit. Looks at the whole grid.
  [[nodiscard]] std::size_t fitting() const;
  /// The best place left, or none. It is taken out; its cell's other angles stay hidden until
  /// next_angle().
  [[nodiscard]] std::optional<Candidate> pop();
  /// Puts the next best angle of a popped place's cell back in line.
  void next_angle(const Candidate& popped);
  /// Puts popped places themselves back in line.
  void put_back(std::span<const Candidate> popped);
  /// Of every cell where no angle fits the best place at which no more than an eighth of the
  /// covered cells is barred: a shift by less than a cell may make it fit. The i-th best of them
  /// if it scores no less than least; else none.
  [[nodiscard]] std::optional<Candidate> nearly(std::size_t i, std::int64_t least);

 private:
  [[nodiscard]] bool fits(int col, int row, const Footprint& footprint) const;
  [[nodiscard]] bool known_well(int col, int row, const Footprint& footprint) const;
  [[nodiscard]] std::int64_t estimate(int col, int row, const Footprint& footprint) const;
  [[nodiscard]] bool nearly_fits(int col, int row, const Footprint& footprint) const;
  template <typename Visit>
  void for_each_angle(int col, int row, Visit&& visit) const;
  template <typename Visit>
  void for_each_allowed(const Candidate& first, Visit&& visit) const;
  [[nodiscard]] std::optional<Candidate> best_of(int col, int row, const Candidate* after) const;
  [[nodiscard]] std::optional<Candidate> nearly_of(int col, int row) const;
  void look_at_leading();
  void look_at_leading_nearly();

  const Grid& grid_;
  const GroundField& field_;
  const std::vector<Footprint>& footprints_;
  std::span<const std::int16_t> along_;
  // Heaps, the best on top. A block stands in the first as a place at its first cell that scores
  // the most that any of its places can.
  GridVector<Candidate> unseen_;
  GridVector<Candidate> heap_;
  GridVector<Candidate> unseen_nearly_;
  GridVector<Candidate> nearly_heap_;
  GridVector<Candidate> nearly_;  // handed out, the best first
};

}  // namespace tidelot
