// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <algorithm>
#include <cstdint>
#include <deque>
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

/// Row-wise sums that answer for a run of cells in a few steps. They are kept by square patches,
/// each summed up when it is first asked for: a search that is led by a Ceiling sees few of them,
/// and what lies together in the water lies together in memory. For one thread.
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
    return sum(&Chunk::barred, row, first, last);
  }
  /// Sums over known cells.
  [[nodiscard]] std::int64_t score(int row, int first, int last) const {
    return sum(&Chunk::score, row, first, last);
  }
  /// The counts below may be asked for only where not all is known.
  [[nodiscard]] bool all_known() const { return all_known_; }
  [[nodiscard]] std::int32_t unknown(int row, int first, int last) const {
    return sum(&Chunk::unknown, row, first, last);
  }
  /// Cells that no ranked site may lie on: depth or a rule not known.
  [[nodiscard]] std::int32_t apart_only(int row, int first, int last) const {
    return sum(&Chunk::apart_only, row, first, last);
  }
  /// How much of the grid was looked at.
  [[nodiscard]] std::size_t cells_summed() const;

  static constexpr int kSide = 64;  ///< of a patch, cells

 private:
  /// A row of a patch begins with a 0.
  static constexpr int kRowSums = kSide + 1;
  static constexpr std::size_t kPatchSums = static_cast<std::size_t>(kSide * kRowSums);
  static constexpr std::size_t kPatches = 64;  ///< of a chunk
  static constexpr std::uint32_t kNotYet = 0xFFFFFFFFU;

  template <typename T>
  using Sums = GridVector<T>;
  /// Patches in the order in which they were first asked for.
  struct Chunk {
    Sums<std::int32_t> barred;
    Sums<std::int64_t> score;
    Sums<std::int32_t> unknown, apart_only;  // empty where all is known
  };
  struct Place {
    const Chunk& chunk;
    std::size_t start;  ///< of the row
  };

  template <typename T>
  [[nodiscard]] T sum(Sums<T> Chunk::*sums, int row, int first, int last) const {
    T total = 0;
    for (int patch = first / kSide; patch <= last / kSide; ++patch) {
      const Place at = place(row, patch);
      const int from = std::max(first - patch * kSide, 0);
      const int end = std::min(last - patch * kSide + 1, kSide);
      const T* const in_row = (at.chunk.*sums).data() + at.start;
      total = static_cast<T>(total + in_row[end] - in_row[from]);
    }
    return total;
  }
  /// Where the sums of a row of the patch in that column of patches stand.
  [[nodiscard]] Place place(int row, int patch_col) const {
    const auto patch = static_cast<std::size_t>(row / kSide * patch_cols_ + patch_col);
    if (slots_[patch] == kNotYet) {
      sum_up(row / kSide, patch_col);
    }
    const std::size_t slot = slots_[patch];
    return {chunks_[slot / kPatches],
            slot % kPatches * kPatchSums + static_cast<std::size_t>(row % kSide * kRowSums)};
  }
  void sum_up(int patch_row, int patch_col) const;
  void sum_up_row(int row, int first_col, Chunk& chunk, std::size_t at) const;

  const Waters& waters_;
  const Grid& grid_;
  Wanted wanted_;
  bool all_known_;
  int patch_cols_;
  mutable std::vector<std::uint32_t> slots_;  ///< of the patches; kNotYet
  mutable std::size_t used_ = 0;              ///< slots
  mutable std::deque<Chunk> chunks_;
};

}  // namespace tidelot
