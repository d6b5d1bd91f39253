// SPDX-License-Identifier: Apache-2.0
// Cells that shapes close, against an oracle that knows no segments: points strewn along the edges,
// and for the inside a ray in whole numbers. Between two points there is a narrow band of cells of
// which the oracle says nothing. RC_PARAMS="seed=... max_success=..." makes other cases, and more.
#include <rapidcheck.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdint>
#include <vector>

#include "support/drawn_rings.hpp"
#include "tidelot/criteria/closed_mask.hpp"

using namespace tidelot;
using namespace tidelot::test;

namespace {

constexpr int kBit = closed_bit::kFirstRule;
constexpr double kApart_m = 1.0;  // between neighbours along an edge

std::vector<XY> strewn(const std::vector<Path>& rings) {
  std::vector<XY> points;
  for (const Path& ring : rings) {
    for (std::size_t i = 1; i < ring.size(); ++i) {
      const XY a = ring[i - 1];
      const XY b = ring[i];
      const int steps = 1 + static_cast<int>(std::hypot(b.x - a.x, b.y - a.y) / kApart_m);
      for (int step = 0; step <= steps; ++step) {
        const double t = static_cast<double>(step) / steps;
        points.push_back({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)});
      }
    }
  }
  return points;
}

std::int64_t quarters(double metres) { return std::llround(4.0 * metres); }

/// Does a ray to the north cross the rings an odd number of times? In whole numbers, so exactly.
bool inside(XY place, const std::vector<Path>& rings) {
  bool odd = false;
  const std::int64_t x = quarters(place.x);
  const std::int64_t y = quarters(place.y);
  for (const Path& ring : rings) {
    for (std::size_t i = 1; i < ring.size(); ++i) {
      const XY& west = ring[i - 1].x < ring[i].x ? ring[i - 1] : ring[i];
      const XY& east = ring[i - 1].x < ring[i].x ? ring[i] : ring[i - 1];
      if (quarters(west.x) <= x && x < quarters(east.x)) {
        const std::int64_t run = quarters(east.x) - quarters(west.x);
        const std::int64_t rise = quarters(east.y) - quarters(west.y);
        odd ^= (y - quarters(west.y)) * run < rise * (x - quarters(west.x));
      }
    }
  }
  return odd;
}

enum class Verdict { closed, open, none };

Verdict verdict(XY centre, const std::vector<Path>& rings, const std::vector<XY>& points,
                double setback_m) {
  if (inside(centre, rings)) {
    return Verdict::closed;
  }
  bool near = false;
  for (const XY& point : points) {
    const double across = std::max(std::abs(point.x - centre.x), std::abs(point.y - centre.y));
    const double away = std::hypot(point.x - centre.x, point.y - centre.y);
    if (across <= kCell_m / 2 || away <= setback_m) {
      return Verdict::closed;
    }
    near = near || across <= kCell_m / 2 + kApart_m || away <= setback_m + kApart_m;
  }
  return near ? Verdict::none : Verdict::open;
}

std::vector<std::uint32_t> marked(const Polygon& polygon, double setback_m) {
  std::vector<Feature> rule(1);
  rule[0].shape.polygons.push_back(polygon);
  rule[0].setback_m = setback_m;
  std::vector<std::uint32_t> mask(kGrid.size(), 0);
  mark_closed(kGrid, rule, Standing::closed, 1.0, kBit, mask);
  return mask;
}

}  // namespace

TEST_CASE("rules: a shape of two rings closes the cells that its points close") {
  CHECK(holds([] {
    const std::vector<Path> both{*rings(), *rings()};
    const double setback_m = *quarter_metres(0, 60);
    const auto mask = marked({both[0], {both[1]}}, setback_m);
    const std::vector<XY> points = strewn(both);
    std::size_t judged = 0;
    for (int row = 0; row < kGrid.rows; ++row) {
      for (int col = 0; col < kGrid.cols; ++col) {
        const Verdict told = verdict(kGrid.centre(col, row), both, points, setback_m);
        const bool closed = mask[kGrid.index(col, row)] != 0;
        RC_ASSERT((told != Verdict::closed || closed));
        RC_ASSERT((told != Verdict::open || !closed));
        judged += told == Verdict::none ? 0 : 1;
      }
    }
    RC_ASSERT(2 * judged > kGrid.size());
  }));
}
