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

}  // namespace

bool ranks_before(const Candidate& a, const Candidate& b) {
  return std::tie(b.score, a.row, a.col, a.angle) < std::tie(a.score, b.row, b.col, b.angle);
}

std::vector<Footprint> footprints_of(const SiteSize& size, double cell_m, int count) {
  std::vector<Footprint> footprints;
  for (int i = 0; i < count; ++i) {
    footprints.push_back(footprint_of(size, i * (180.0 / count), cell_m));
  }
  return footprints;
}

Candidates::Candidates(const Grid& grid, const GroundField& field,
                       const std::vector<Footprint>& footprints,
                       std::span<const std::int16_t> along)
    : grid_(grid), field_(field), footprints_(footprints), along_(along) {
  for (int row = 0; row < grid.rows; ++row) {
    for (int col = 0; col < grid.cols; ++col) {
      if (field.allowed(row, col, col)) {
        const std::size_t before = heap_.size();
        keep_best(col, row, nullptr);
        if (heap_.size() == before) {
          keep_nearly(col, row);
        }
      }
    }
  }
  std::make_heap(heap_.begin(), heap_.end(), ranks_after);
  std::sort(nearly_.begin(), nearly_.end(), ranks_before);
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

/// Keeps the cell's best angle that ranks after `after`; any, where there is none. A place that
/// would yield nothing is no place.
void Candidates::keep_best(int col, int row, const Candidate* after) {
  std::optional<Candidate> best;
  for_each_angle(col, row, [&](int angle, const Footprint& footprint) {
    if (!fits(col, row, footprint)) {
      return;
    }
    const Candidate candidate{estimate(col, row, footprint), row, col, angle};
    if (candidate.score <= 0) {
      return;
    }
    fitting_ += after == nullptr ? 1 : 0;
    const bool in_line = after == nullptr || ranks_before(*after, candidate);
    if (in_line && (!best || ranks_before(candidate, *best))) {
      best = candidate;
    }
  });
  if (best) {
    heap_.push_back(*best);
  }
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

void Candidates::keep_nearly(int col, int row) {
  std::optional<Candidate> best;
  for_each_angle(col, row, [&](int angle, const Footprint& footprint) {
    if (nearly_fits(col, row, footprint)) {
      const Candidate candidate{estimate(col, row, footprint), row, col, angle};
      best = candidate.score > 0 && (!best || ranks_before(candidate, *best)) ? candidate : best;
    }
  });
  if (best) {
    nearly_.push_back(*best);
  }
}

std::optional<Candidate> Candidates::pop() {
  if (heap_.empty()) {
    return std::nullopt;
  }
  std::pop_heap(heap_.begin(), heap_.end(), ranks_after);
  const Candidate best = heap_.back();
  heap_.pop_back();
  return best;
}

void Candidates::next_angle(const Candidate& popped) {
  const std::size_t before = heap_.size();
  keep_best(popped.col, popped.row, &popped);
  if (heap_.size() > before) {
    std::push_heap(heap_.begin(), heap_.end(), ranks_after);
  }
}

void Candidates::put_back(std::span<const Candidate> popped) {
  for (const Candidate& candidate : popped) {
    heap_.push_back(candidate);
    std::push_heap(heap_.begin(), heap_.end(), ranks_after);
  }
}

}  // namespace tidelot
