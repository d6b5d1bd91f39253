// SPDX-License-Identifier: Apache-2.0
#include "sites/candidates.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace tidelot {
namespace {

constexpr int kAngles = 12;
constexpr int kNearly = 8;  // one covered cell in so many may be barred

bool ranks_after(const Candidate& a, const Candidate& b) { return ranks_before(b, a); }

void push(GridVector<Candidate>& heap, const Candidate& candidate) {
  heap.push_back(candidate);
  std::push_heap(heap.begin(), heap.end(), ranks_after);
}

Candidate take_top(GridVector<Candidate>& heap) {
  std::pop_heap(heap.begin(), heap.end(), ranks_after);
  const Candidate top = heap.back();
  heap.pop_back();
  return top;
}

/// Does the top of one heap rank before that of another? A heap without places ranks last.
bool leads(const GridVector<Candidate>& a, const GridVector<Candidate>& b) {
  return !a.empty() && (b.empty() || !ranks_before(b.front(), a.front()));
}

/// Cells from the middle of a footprint to its furthest row or column.
int reach_of(const std::vector<Footprint>& footprints) {
  int reach = 0;
  for (const Footprint& footprint : footprints) {
    for (const auto* runs : {&footprint.touched, &footprint.covered}) {
      for (const RowRun& run : *runs) {
        reach = std::max({reach, std::abs(run.row), std::abs(run.first), std::abs(run.last)});
      }
    }
  }
  return reach;
}

/// The most that an estimate can be where no cell scores more than `cell`: that of even water, and
/// what rounding may add.
std::int64_t most_of(std::int64_t cell, double area_cells) {
  constexpr double kRounding = 1.0 + 1e-15;
  return std::llround(static_cast<double>(cell) * area_cells * kRounding);
}

}  // namespace

bool ranks_before(const Candidate& a, const Candidate& b) {
  return std::tie(b.score, a.row, a.col, a.angle) < std::tie(a.score, b.row, b.col, b.angle);
}

std::vector<Footprint> footprints_of(const SiteSize& size, double cell_m, int count) {
  std::vector<Footprint> footprints;
  footprints.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    footprints.push_back(footprint_of(size, i * (180.0 / count), cell_m));
  }
  return footprints;
}

Candidates::Candidates(const Grid& grid, const GroundField& field,
                       const std::vector<Footprint>& footprints, const Ceiling& ceiling,
                       std::span<const std::int16_t> along)
    : grid_(grid), field_(field), footprints_(footprints), along_(along) {
  const double area = footprints.front().area_cells;
  const auto surely_some = static_cast<std::int64_t>(std::ceil(1.0 / area)) + 1;
  unseen_.reserve(ceiling.blocks());
  unseen_nearly_.reserve(ceiling.blocks());
  ceiling.for_each_block(reach_of(footprints), [&](const Block& block) {
    const Candidate first{most_of(block.most, area), block.row, block.col, 0};
    if (first.score <= 0) {
      return;  // a place that would yield nothing is no place
    }
    unseen_.push_back(first);
    // In good water all around every ranked place fits, so none fits nearly.
    if (block.least < surely_some || field.wanted() == Wanted::apart) {
      unseen_nearly_.push_back(first);
    }
  });
  std::make_heap(unseen_.begin(), unseen_.end(), ranks_after);
  std::make_heap(unseen_nearly_.begin(), unseen_nearly_.end(), ranks_after);
}

/// Visits the cells of a block that a site may lie on.
template <typename Visit>
void Candidates::for_each_allowed(const Candidate& first, Visit&& visit) const {
  for (int row = first.row; row < std::min(grid_.rows, first.row + Ceiling::kSide); ++row) {
    for (int col = first.col; col < std::min(grid_.cols, first.col + Ceiling::kSide); ++col) {
      if (field_.allowed(row, col, col)) {
        visit(col, row);
      }
    }
  }
}

std::size_t Candidates::fitting() const {
  std::size_t count = 0;
  for (int row = 0; row < grid_.rows; row += Ceiling::kSide) {
    for (int col = 0; col < grid_.cols; col += Ceiling::kSide) {
      for_each_allowed({0, row, col, 0}, [&](int c, int r) {
        for_each_angle(c, r, [&](int, const Footprint& footprint) {
          count += fits(c, r, footprint) && estimate(c, r, footprint) > 0 ? 1 : 0;
        });
      });
    }
  }
  return count;
}

bool Candidates::fits(int col, int row, const Footprint& footprint) const {
  const bool allowed =
      std::all_of(footprint.touched.begin(), footprint.touched.end(), [&](const RowRun& run) {
        return field_.allowed(row + run.row, col + run.first, col + run.last);
      });
  return allowed && known_well(col, row, footprint) == (field_.wanted() == Wanted::ranked);
}

/// No unknown depth under it, and no more than a fifth of it with another property unknown.
bool Candidates::known_well(int col, int row, const Footprint& footprint) const {
  if (field_.all_known()) {
    return true;
  }
  std::int32_t unknown = 0;
  for (const RowRun& run : footprint.covered) {
    unknown += field_.unknown(row + run.row, col + run.first, col + run.last);
  }
  if (unknown > kMostUnknown * static_cast<double>(footprint.covered_cells)) {
    return false;
  }
  // Where ranked sites are looked for, unknown depth is not allowed in the first place.
  return field_.wanted() == Wanted::ranked ||
         std::all_of(footprint.touched.begin(), footprint.touched.end(), [&](const RowRun& run) {
           return field_.apart_only(row + run.row, col + run.first, col + run.last) == 0;
         });
}

std::int64_t Candidates::estimate(int col, int row, const Footprint& footprint) const {
  std::int64_t score = 0;
  for (const RowRun& run : footprint.covered) {
    score += field_.score(row + run.row, col + run.first, col + run.last);
  }
  return std::llround(static_cast<double>(score) * footprint.area_cells /
                      static_cast<double>(footprint.covered_cells));
}

/// Visits the footprints that a cell tries.
template <typename Visit>
void Candidates::for_each_angle(int col, int row, Visit&& visit) const {
  const int only = along_.empty() ? -1 : along_[grid_.index(col, row)];
  const int step = only < 0 ? static_cast<int>(footprints_.size()) / kAngles : 1;
  const int end = only < 0 ? static_cast<int>(footprints_.size()) : only + 1;
  for (int angle = std::max(only, 0); angle < end; angle += step) {
    visit(angle, footprints_[static_cast<std::size_t>(angle)]);
  }
}

/// The cell's best angle that ranks after `after`; any, where there is none. A place that would
/// yield nothing is no place.
std::optional<Candidate> Candidates::best_of(int col, int row, const Candidate* after) const {
  std::optional<Candidate> best;
  for_each_angle(col, row, [&](int angle, const Footprint& footprint) {
    if (!fits(col, row, footprint)) {
      return;
    }
    const Candidate candidate{estimate(col, row, footprint), row, col, angle};
    const bool in_line = after == nullptr || ranks_before(*after, candidate);
    if (candidate.score > 0 && in_line && (!best || ranks_before(candidate, *best))) {
      best = candidate;
    }
  });
  return best;
}

bool Candidates::nearly_fits(int col, int row, const Footprint& footprint) const {
  std::size_t barred = 0;
  for (const RowRun& run : footprint.covered) {
    const int r = row + run.row;
    if (r < 0 || r >= grid_.rows || col + run.first < 0 || col + run.last >= grid_.cols) {
      return false;
    }
    barred += static_cast<std::size_t>(field_.barred(r, col + run.first, col + run.last));
    if (kNearly * barred > footprint.covered_cells) {
      return false;
    }
  }
  return true;
}

std::optional<Candidate> Candidates::nearly_of(int col, int row) const {
  std::optional<Candidate> best;
  for_each_angle(col, row, [&](int angle, const Footprint& footprint) {
    if (nearly_fits(col, row, footprint)) {
      const Candidate candidate{estimate(col, row, footprint), row, col, angle};
      best = candidate.score > 0 && (!best || ranks_before(candidate, *best)) ? candidate : best;
    }
  });
  return best;
}

void Candidates::look_at_leading() {
  for_each_allowed(take_top(unseen_), [&](int col, int row) {
    if (const auto best = best_of(col, row, nullptr)) {
      push(heap_, *best);
    }
  });
}

void Candidates::look_at_leading_nearly() {
  for_each_allowed(take_top(unseen_nearly_), [&](int col, int row) {
    const auto nearly = nearly_of(col, row);
    if (nearly && !best_of(col, row, nullptr)) {
      push(nearly_heap_, *nearly);
    }
  });
}

std::optional<Candidate> Candidates::pop() {
  while (leads(unseen_, heap_)) {
    look_at_leading();
  }
  return heap_.empty() ? std::nullopt : std::optional(take_top(heap_));
}

void Candidates::next_angle(const Candidate& popped) {
  if (const auto next = best_of(popped.col, popped.row, &popped)) {
    push(heap_, *next);
  }
}

void Candidates::put_back(std::span<const Candidate> popped) {
  for (const Candidate& candidate : popped) {
    push(heap_, candidate);
  }
}

std::optional<Candidate> Candidates::nearly(std::size_t i, std::int64_t least) {
  while (nearly_.size() <= i) {
    while (leads(unseen_nearly_, nearly_heap_) && unseen_nearly_.front().score >= least) {
      look_at_leading_nearly();
    }
    if (nearly_heap_.empty() || nearly_heap_.front().score < least) {
      return std::nullopt;
    }
    nearly_.push_back(take_top(nearly_heap_));
  }
  return nearly_[i].score >= least ? std::optional(nearly_[i]) : std::nullopt;
}

}  // namespace tidelot
