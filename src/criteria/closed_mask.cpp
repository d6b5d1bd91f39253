// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/closed_mask.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "criteria/row_runs.hpp"
#include "criteria/scanline.hpp"

// A cell is closed in one of three ways, each marked row by row: its centre lies within reach of an
// edge, an edge passes through it, or its centre lies inside a polygon. Together they are "the
// centre lies within the setback of the shape, or the shape touches the cell": a polygon that meets
// a cell without an edge in it covers it, centre and all.
namespace tidelot {
namespace {

void add_disc(double y, XY centre, double reach, Interval& x) {
  const double square = reach * reach - (y - centre.y) * (y - centre.y);
  if (square >= 0.0) {
    x.add(centre.x - std::sqrt(square));
    x.add(centre.x + std::sqrt(square));
  }
}

/// The x within reach of a segment at y. What lies within reach is convex, so it is one interval:
/// it is bounded by the discs about the ends and by the two parallels.
Interval within_reach(double y, XY a, XY b, double reach) {
  Interval x;
  add_disc(y, a, reach, x);
  add_disc(y, b, reach, x);
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  if (length > 0.0) {
    const double nx = reach * (a.y - b.y) / length;
    const double ny = reach * (b.x - a.x) / length;
    add_crossing(y, {a.x + nx, a.y + ny}, {b.x + nx, b.y + ny}, x);
    add_crossing(y, {a.x - nx, a.y - ny}, {b.x - nx, b.y - ny}, x);
  }
  return x;
}

/// Cells of one row whose centre lies within reach. The interval only says where to look; the
/// distance itself decides at both ends.
void add_reach_row(const Grid& grid, int row, XY a, XY b, double reach, RowRuns& runs) {
  const double y = grid.centre(0, row).y;
  const Interval x = within_reach(y, a, b, reach);
  if (x.empty()) {
    return;
  }
  const auto outside = [&](int col) {
    return distance_to_segment(grid.centre(col, row), a, b) > reach;
  };
  int first = std::max(0, first_centre_from(grid, x.low) - 1);
  int last = std::min(grid.cols - 1, first_centre_from(grid, x.high));
  while (first <= last && outside(first)) {
    ++first;
  }
  while (last >= first && outside(last)) {
    --last;
  }
  runs.add(row, first, last);
}

void add_reach(const Grid& grid, XY a, XY b, double reach, RowRuns& runs) {
  const CellRange rows =
      rows_touching(grid, std::min(a.y, b.y) - reach, std::max(a.y, b.y) + reach);
  for (int row = rows.first; row <= rows.last; ++row) {
    add_reach_row(grid, row, a, b, reach, runs);
  }
}

void add_touched(const Grid& grid, XY a, XY b, RowRuns& runs) {
  const CellRange rows = rows_touching(grid, std::min(a.y, b.y), std::max(a.y, b.y));
  for (int row = rows.first; row <= rows.last; ++row) {
    Interval x;
    add_band(grid.north - (row + 1) * grid.cell_m, grid.north - row * grid.cell_m, a, b, x);
    const CellRange cols = columns_touching(grid, x.low, x.high);
    runs.add(row, cols.first, cols.last);
  }
}

void add_segment(const Grid& grid, XY a, XY b, double reach, RowRuns& runs) {
  add_touched(grid, a, b, runs);
  if (reach > 0.0) {
    add_reach(grid, a, b, reach, runs);
  }
}

using Crossing = std::pair<int, double>;  // row, x where an edge crosses the row's middle

void collect_crossings(const Grid& grid, XY a, XY b, std::vector<Crossing>& crossings) {
  const CellRange rows = rows_touching(grid, std::min(a.y, b.y), std::max(a.y, b.y));
  for (int row = rows.first; row <= rows.last; ++row) {
    const double y = grid.centre(0, row).y;
    if ((a.y > y) != (b.y > y)) {
      crossings.emplace_back(row, x_at(y, a, b));
    }
  }
}

/// Cells whose centre lies inside by the even-odd rule: between the first and the second crossing
/// of their row, the third and the fourth, and so on.
void add_inside(const Grid& grid, const Polygon& polygon, RowRuns& runs) {
  std::vector<Crossing> crossings;
  const auto collect = [&](XY a, XY b) { collect_crossings(grid, a, b, crossings); };
  for_each_edge(polygon.outer, collect);
  for (const Path& hole : polygon.holes) {
    for_each_edge(hole, collect);
  }
  std::sort(crossings.begin(), crossings.end());
  for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
    runs.add(crossings[i].first, first_centre_from(grid, crossings[i].second),
             first_centre_from(grid, crossings[i + 1].second) - 1);
  }
}

}  // namespace

GridVector<CellRun> closed_runs(const Grid& grid, std::span<const Feature> features,
                                Standing standing, double scale) {
  RowRuns runs(grid);
  for (const Feature& feature : features) {
    if (feature.standing != standing) {
      continue;
    }
    for (const Polygon& polygon : feature.shape.polygons) {
      add_inside(grid, polygon, runs);
    }
    for_each_edge(feature.shape,
                  [&](XY a, XY b) { add_segment(grid, a, b, feature.setback_m * scale, runs); });
  }
  return std::move(runs).merged();
}

void mark_closed(const Grid& grid, std::span<const Feature> features, Standing standing,
                 double scale, int bit, std::span<std::uint32_t> mask) {
  const std::uint32_t mark = std::uint32_t{1} << static_cast<unsigned>(bit);
  for (const CellRun& run : closed_runs(grid, features, standing, scale)) {
    for (int col = run.first; col <= run.last; ++col) {
      mask[grid.index(col, run.row)] |= mark;
    }
  }
}

}  // namespace tidelot
