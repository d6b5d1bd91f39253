// SPDX-License-Identifier: Apache-2.0
#include "report/maps/flag_places.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

using namespace tidelot;
using page::Flagged;

namespace {

constexpr XY kMap{690.0, 760.0};

/// Pairs of flags that lie over one another.
int overlaps(const std::vector<Flagged>& sites) {
  const std::vector<XY> places = page::flag_places(sites, kMap);
  int count = 0;
  for (std::size_t i = 0; i < sites.size(); ++i) {
    for (std::size_t k = i + 1; k < sites.size(); ++k) {
      const double dx = sites[i].centre.x + places[i].x - sites[k].centre.x - places[k].x;
      const double dy = sites[i].centre.y + places[i].y - sites[k].centre.y - places[k].y;
      count +=
          std::abs(dx) < (sites[i].width + sites[k].width) / 2.0 && std::abs(dy) < page::kFlagHeight
              ? 1
              : 0;
    }
  }
  return count;
}

}  // namespace

TEST_CASE("a site by itself has its flag up and right of it", "[report]") {
  const std::vector<XY> places = page::flag_places(std::vector<Flagged>{{{300.0, 300.0}}}, kMap);
  REQUIRE(places.size() == 1);
  CHECK(places[0].x > 15.0);
  CHECK(places[0].y < -15.0 + 5.0);
  CHECK(std::hypot(places[0].x, places[0].y) == Approx(28.0));
}

TEST_CASE("flags of sites in a heap do not lie over one another", "[report]") {
  std::vector<Flagged> heap;
  for (int i = 0; i < 30; ++i) {
    heap.push_back({{300.0 + 7.0 * (i % 6), 300.0 + 7.0 * (i / 6)}, i % 5 == 0 ? 52.0 : 22.0});
  }
  CHECK(overlaps(heap) == 0);
  const std::vector<Flagged> same(8, {{300.0, 300.0}, 52.0});
  CHECK(overlaps(same) == 0);
}

TEST_CASE("flags stay on the map", "[report]") {
  const std::vector<Flagged> corners{
      {{2.0, 2.0}, 52.0}, {{688.0, 3.0}, 22.0}, {{5.0, 757.0}, 22.0}, {{686.0, 756.0}, 52.0}};
  const std::vector<XY> places = page::flag_places(corners, kMap);
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const double x = corners[i].centre.x + places[i].x;
    const double y = corners[i].centre.y + places[i].y;
    CHECK(x >= corners[i].width / 2.0);
    CHECK(x <= kMap.x - corners[i].width / 2.0);
    CHECK(y >= page::kFlagHeight / 2.0);
    CHECK(y <= kMap.y - page::kFlagHeight / 2.0);
  }
  CHECK(overlaps(corners) == 0);
}
