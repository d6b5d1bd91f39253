// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <vector>

#include "sites/ceiling.hpp"
#include "tidelot/core/grid.hpp"
#include "tidelot/core/grid_vector.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/sites/layout.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot {

/// What a cell is to a site.
enum class Ground : std::uint8_t {
  outside,           ///< outside of the outline
  land,              ///< or depth not above low water
  closed,            ///< by a rule, or the gear does not bear it
  poor,              ///< open, but its suitability is below the least
  too_deep,          ///< open and good enough, but the anchor legs leave no line
  good,              ///< open, known, good enough
  property_unknown,  ///< open and deep enough, but a water property is not known
  depth_unknown,     ///< nothing closes it, but whether gear clears is not known
  rule_unknown,      ///< whether a rule holds is not known
};

inline constexpr std::size_t kGrounds = 9;  ///< kinds

/// No site lies on it, whatever else is known.
[[nodiscard]] inline bool is_barred(Ground ground) { return ground < Ground::good; }

/// What cell i is to a site of this size.
[[nodiscard]] Ground ground_at(const Plan& plan, const ScoredMaps& maps, const SiteSize& size,
                               std::size_t i);

struct GroundCount {
  std::size_t open = 0;      ///< nothing closes it, everything known
  std::size_t good = 0;      ///< Ground::good
  std::size_t too_deep = 0;  ///< good but for the anchor legs
  std::size_t unknown = 0;   ///< one of the two unknown kinds
};

/// What decides what a cell is to a site; all outlive it. size: true metres.
struct Waters {
  const Plan& plan;
  const Grid& grid;
  const ScoredMaps& maps;
  SiteSize size;
};

/// One look at every cell.
struct GroundSurvey {
  GroundCount count;
  Ceiling ceiling;
};
[[nodiscard]] GroundSurvey survey_ground(const Waters& waters);

/// suitability * yield of a cell, kg/m; NaN where either is.
[[nodiscard]] double suitability_yield(const ScoredMaps& maps, std::size_t i);

/// suitability * yield as a whole number: sums of them do not depend on their order, so equal
/// sites tie exactly. The step is 2^-20 kg/m.
[[nodiscard]] std::int64_t whole_score(float suitability, float yield_kg_per_m);
[[nodiscard]] std::int64_t whole_of(double suitability_yield);
[[nodiscard]] double score_of_whole(std::int64_t whole);

/// The share of a ranked site over which a water property may be unknown.
inline constexpr double kMostUnknown = 0.2;

/// Which sites are looked for.
enum class Wanted {
  ranked,  ///< known well enough
  apart,   ///< would fit, but for what is not known
};

/// Row-wise sums that answer for a run of cells in a few steps. A row is summed up when it is first
/// asked for: a search that is led by a Ceiling sees few of them. For one thread.
class GroundField {
 public:
  /// all_known: no cell is of one of the unknown kinds, so that they need not be counted. waters
  /// outlives it.
  GroundField(const Waters& waters, Wanted wanted, bool all_known);
  [[nodiscard]] Wanted wanted() const { return wanted_; }
  /// Is every cell of the run inside the grid and allowed to lie under a site?
  [[nodiscard]] bool allowed(int row, int first, int last) const {
    return row >= 0 && row < grid_.rows && first >= 0 && last < grid_.cols &&
           barred(row, first, last) == 0;
  }
  /// The rest is for runs inside the grid. Cells that no site of the kind wanted may lie on.
  [[nodiscard]] std::int32_t barred(int row, int first, int last) const {
    return sum(barred_, row, first, last);
  }
  /// Sums over known cells.
  [[nodiscard]] std::int64_t score(int row, int first, int last) const {
    return sum(score_, row, first, last);
  }
  /// The counts below may be asked for only where not all is known.
  [[nodiscard]] bool all_known() const { return all_known_; }
  [[nodiscard]] std::int32_t unknown(int row, int first, int last) const {
    return sum(unknown_, row, first, last);
  }
  /// Cells that no ranked site may lie on: depth or a rule not known.
  [[nodiscard]] std::int32_t apart_only(int row, int first, int last) const {
    return sum(apart_only_, row, first, last);
  }
  /// How much of the grid was looked at.
  [[nodiscard]] std::size_t rows_summed() const;

 private:
  /// Sums from the west, cols + 1 a row; a row's memory is touched when it is summed up.
  template <typename T>
  using Sums = GridVector<T>;

  template <typename T>
  [[nodiscard]] T sum(const Sums<T>& sums, int row, int first, int last) const {
    if (summed_[static_cast<std::size_t>(row)] == 0) {
      sum_up(row);
    }
    const std::size_t start = start_of(row);
    return static_cast<T>(sums[start + static_cast<std::size_t>(last) + 1] -
                          sums[start + static_cast<std::size_t>(first)]);
  }
  [[nodiscard]] std::size_t start_of(int row) const {
    return static_cast<std::size_t>(row) * (static_cast<std::size_t>(grid_.cols) + 1);
  }
  void sum_up(int row) const;

  const Waters& waters_;
  const Grid& grid_;
  Wanted wanted_;
  bool all_known_;
  mutable std::vector<std::uint8_t> summed_;  // rows
  mutable Sums<std::int32_t> barred_;
  mutable Sums<std::int64_t> score_;
  mutable Sums<std::int32_t> unknown_, apart_only_;  // empty where all is known
};

}  // namespace tidelot
