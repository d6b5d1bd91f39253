// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/water_distance.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <string>

using namespace tidelot;

namespace {

/// A bay drawn with '~' for water, '#' for land, '?' for unknown depth.
struct Bay {
  Grid grid;
  std::vector<float> depth;
  explicit Bay(const std::vector<std::string>& rows)
      : grid{0.0,
             10.0 * static_cast<double>(rows.size()),
             10.0,
             static_cast<int>(rows[0].size()),
             static_cast<int>(rows.size()),
             "EPSG:32626"} {
    for (const std::string& row : rows) {
      for (const char c : row) {
        depth.push_back(c == '~'   ? 5.0F
                        : c == '#' ? -1.0F
                                   : std::numeric_limits<float>::quiet_NaN());
      }
    }
  }
  [[nodiscard]] GridVector<float> from(XY place) const {
    return water_distance(Waterway(grid, depth), place);
  }
};

}  // namespace

TEST_CASE("over open water the distance is the straight line") {
  const Bay bay(std::vector<std::string>(200, std::string(300, '~')));
  const XY start = bay.grid.centre(13, 170);
  const auto lengths = bay.from(start);
  double worst = 0.0;
  for (int row = 0; row < bay.grid.rows; ++row) {
    for (int col = 0; col < bay.grid.cols; ++col) {
      const XY c = bay.grid.centre(col, row);
      const double straight = std::hypot(c.x - start.x, c.y - start.y);
      const double length = static_cast<double>(lengths[bay.grid.index(col, row)]);
      REQUIRE(length >= straight * (1.0 - 1e-6));
      worst = std::max(worst, straight > 0.0 ? length / straight - 1.0 : 0.0);
    }
  }
  CHECK(worst < 0.003);
}

TEST_CASE("around a headland it is the taut string") {
  // A wall one cell thick from the north, its foot at row 60: the string bends at two corners.
  std::vector<std::string> rows(120, std::string(200, '~'));
  for (int row = 0; row < 60; ++row) {
    rows[static_cast<std::size_t>(row)][100] = '#';
  }
  const Bay bay(rows);
  const XY start = bay.grid.centre(30, 20);
  const XY west{1000.0, 600.0};
  const XY east{1010.0, 600.0};
  const auto lengths = bay.from(start);
  for (const Cell to : {Cell{160, 5}, Cell{130, 50}, Cell{199, 30}}) {
    const XY end = bay.grid.centre(to.col, to.row);
    const double taut = std::hypot(west.x - start.x, west.y - start.y) + 10.0 +
                        std::hypot(end.x - east.x, end.y - east.y);
    CHECK(lengths[bay.grid.index(to.col, to.row)] == Approx(taut).epsilon(0.01));
  }
}

TEST_CASE("a pool that no water leads to stays unknown, corners do not leak") {
  const Bay bay({"~~~~~~", "~~#~~~", "~#~#~~", "~~#~~~", "~~~~~~"});
  const auto lengths = bay.from(bay.grid.centre(0, 0));
  CHECK(std::isnan(lengths[bay.grid.index(2, 2)]));
  CHECK(std::isnan(lengths[bay.grid.index(2, 1)]));
  CHECK(lengths[bay.grid.index(5, 4)] > 0.0F);
}

TEST_CASE("unknown depth is not crossed") {
  const Bay bay({"~?~", "~?~", "~?~"});
  CHECK(std::isnan(bay.from(bay.grid.centre(0, 1))[2]));
}

TEST_CASE("a start on land begins at the nearest water, and the way to it counts") {
  const Bay bay({"###~~~"});
  const auto lengths = bay.from({5.0, 5.0});
  CHECK(lengths[3] == 30.0F);
  CHECK(lengths[5] == 50.0F);
}

TEST_CASE("a start outside the grid begins at the nearest water") {
  CHECK(Bay({"~~~"}).from({-15.0, 5.0})[2] == 40.0F);
}

TEST_CASE("without water nothing is reached") {
  const Bay bay({"##", "?#"});
  for (const float length : bay.from({0.0, 0.0})) {
    CHECK(std::isnan(length));
  }
}

TEST_CASE("a winding channel is followed") {
  const Bay bay({"~~~~~", "####~", "~~~~~", "~####", "~~~~~"});
  const auto lengths = bay.from(bay.grid.centre(0, 0));
  // Taut through the cell centres about the two walls: 40 + 20 + 40 + 20 + 40, less the cut
  // corners.
  CHECK(lengths[bay.grid.index(4, 4)] <= 160.0F);
  CHECK(lengths[bay.grid.index(4, 4)] >= 130.0F);
}
