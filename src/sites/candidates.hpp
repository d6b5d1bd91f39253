// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "sites/field.hpp"
#include "sites/footprint.hpp"

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

/// Hands out the places where a site fits, the best first. Only the best angle of each cell is
/// kept; the next one is found again when it is asked for, so memory is bounded by the cells.
class Candidates {
 public:
  /// along: the one footprint that a cell tries, -1: all twelve; empty: all twelve everywhere.
  Candidates(const Grid& grid, const GroundField& field, const std::vector<Footprint>& footprints,
             std::span<const std::int16_t> along = {});
  /// Places times angles that fit.
  [[nodiscard]] std::size_t fitting() const { return fitting_; }
  /// The best place left, or none. It is taken out; its cell's other angles stay hidden until
  /// next_angle().
  [[nodiscard]] std::optional<Candidate> pop();
  /// Puts the next best angle of a popped place's cell back in line.
  void next_angle(const Candidate& popped);
  /// Puts popped places themselves back in line.
  void put_back(std::span<const Candidate> popped);
  /// Of every cell where no angle fits the best place at which no more than an eighth of the
  /// covered cells is barred, the best first: a shift by less than a cell may make it fit.
  [[nodiscard]] std::span<const Candidate> nearly() const { return nearly_; }

 private:
  [[nodiscard]] bool fits(int col, int row, const Footprint& footprint) const;
  [[nodiscard]] bool known_well(int col, int row, const Footprint& footprint) const;
  [[nodiscard]] std::int64_t estimate(int col, int row, const Footprint& footprint) const;
  [[nodiscard]] bool nearly_fits(int col, int row, const Footprint& footprint) const;
  template <typename Visit>
  void for_each_angle(int col, int row, Visit&& visit) const;
  void keep_best(int col, int row, const Candidate* after);
  void keep_nearly(int col, int row);

  const Grid& grid_;
  const GroundField& field_;
  const std::vector<Footprint>& footprints_;
  std::span<const std::int16_t> along_;
  std::vector<Candidate> heap_;
  std::vector<Candidate> nearly_;
  std::size_t fitting_ = 0;
};

}  // namespace tidelot
