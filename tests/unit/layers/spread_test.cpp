// SPDX-License-Identifier: Apache-2.0
#include "layers/spread.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <string>

#include "layers/surface_raster.hpp"
#include "layers/water_lattice.hpp"

using namespace tidelot;

namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

/// '~' water, '#' land; cells of 10 m.
struct Bay {
  Grid grid;
  std::vector<float> depth;
  explicit Bay(const std::vector<std::string>& rows)
      : grid{0.0,
             10.0 * static_cast<double>(rows.size()),
             10.0,
             static_cast<int>(rows[0].size()),
             static_cast<int>(rows.size()),
             "local"} {
    for (const std::string& row : rows) {
      for (const char c : row) {
        depth.push_back(c == '~' ? 5.0F : -1.0F);
      }
    }
  }
  [[nodiscard]] Waterway way() const { return {grid, depth}; }
  [[nodiscard]] Waterway blocks(int side) const {
    return water_lattice(grid, side, [this](const Tile& tile) {
      std::vector<float> out;
      for (int row = 0; row < tile.rows; ++row) {
        for (int col = 0; col < tile.cols; ++col) {
          out.push_back(depth[grid.index(tile.col0 + col, tile.row0 + row)]);
        }
      }
      return out;
    });
  }
};

PlaceMeans place(std::size_t cell, std::initializer_list<double> first_months) {
  PlaceMeans out;
  out.cell = cell;
  out.mean.fill(kNone);
  std::copy(first_months.begin(), first_months.end(), out.mean.begin());
  return out;
}

}  // namespace

TEST_CASE("weights fall with the square of the distance through the water") {
  const Bay bay({"~~~~~~~~~~~"});
  const std::vector<PlaceMeans> places{place(0, {10.0}), place(10, {20.0})};
  const Surfaces out = spread(bay.way(), places, {2.0, 5.0});
  const double near = 1.0 / (20.0 * 20.0 + 25.0);
  const double far = 1.0 / (80.0 * 80.0 + 25.0);
  CHECK(double{out.month[0][2]} == Approx((10.0 * near + 20.0 * far) / (near + far)));
  CHECK(double{out.month[0][5]} == Approx(15.0));
}

TEST_CASE("another power weighs otherwise") {
  const Bay bay({"~~~~~"});
  const std::vector<PlaceMeans> places{place(0, {10.0}), place(4, {20.0})};
  const Surfaces out = spread(bay.way(), places, {1.0, 1.0});
  const double near = 1.0 / std::sqrt(101.0);
  const double far = 1.0 / std::sqrt(901.0);
  CHECK(double{out.month[0][1]} == Approx((10.0 * near + 20.0 * far) / (near + far)));
}

TEST_CASE("a spit parts the water, and a pool that no way leads to stays unknown") {
  const Bay bay({"~~~#~~~#~",  //
                 "~~~#~~~#~",  //
                 "~~~#~~~#~",  //
                 "~~~#~~~#~",  //
                 "~~~~~~~#~"});
  // Across the spit it is 20 m, by the water round its end about 90 m.
  const std::vector<PlaceMeans> places{place(2, {10.0}), place(6, {30.0})};
  const Surfaces out = spread(bay.way(), places, {2.0, 1.0});
  const double here = double{out.month[0][4]};  // beside the spit, right of it
  CHECK(here > 29.0);
  CHECK(std::isnan(out.month[0][8]));
  CHECK(std::isnan(out.month[0][3]));
}

TEST_CASE("months without a reading lie on the line between their neighbours, round the new year") {
  const Bay bay({"~~"});
  PlaceMeans at = place(0, {});
  at.mean[1] = 4.0;   // February
  at.mean[9] = 10.0;  // October
  const Surfaces out = spread(bay.way(), std::vector{at}, {2.0, 50.0});
  CHECK(out.month[5][0] == 7.0F);
  CHECK(out.month[11][1] == 7.0F);  // December, half way from October to February
  CHECK(out.month[0][0] == 5.5F);
  CHECK(out.filled[0]);
  CHECK_FALSE(out.filled[1]);
}

TEST_CASE("one place alone is the same everywhere, and has no error") {
  const Bay bay({"~~~~", "~##~"});
  const Surfaces out = spread(bay.way(), std::vector{place(0, {3.25})}, {2.0, 50.0});
  for (const std::size_t cell : {0U, 1U, 3U, 4U, 7U}) {
    for (const auto& month : out.month) {
      CHECK(month[cell] == 3.25F);
    }
  }
  CHECK(out.all.count == 0);
}

TEST_CASE("each place is left out and told from the others") {
  const Bay bay({"~~~~~~~~~~~"});
  const std::vector<PlaceMeans> places{place(0, {10.0, 1.0}), place(5, {14.0}), place(10, {20.0})};
  const Surfaces out = spread(bay.way(), places, {2.0, 1.0});
  const double w5 = 1.0 / 2501.0;
  const double w10 = 1.0 / 10001.0;
  const double first = (14.0 * w5 + 20.0 * w10) / (w5 + w10) - 10.0;
  const double middle = 15.0 - 14.0;
  const double last = (14.0 * w5 + 10.0 * w10) / (w5 + w10) - 20.0;
  CHECK(out.left_out[0].count == 3);
  CHECK(out.left_out[0].bias == Approx((first + middle + last) / 3.0));
  CHECK(out.left_out[0].rmse ==
        Approx(std::sqrt((first * first + middle * middle + last * last) / 3.0)));
  CHECK(out.left_out[1].count == 0);  // a lone value
  CHECK(out.all.count == 3);
}

TEST_CASE("two places in one cell count as two") {
  const Bay bay({"~~~"});
  const std::vector<PlaceMeans> places{place(0, {10.0}), place(0, {20.0}), place(2, {30.0})};
  const Surfaces out = spread(bay.way(), places, {2.0, 1e6});
  CHECK(double{out.month[0][1]} == Approx(20.0));
}

TEST_CASE("blocks keep land of a cell's width between waters") {
  // The spit runs through the middle of the blocks: three cells a side.
  const Bay bay({"~~~~#~~~~",  //
                 "~~~~#~~~~",  //
                 "~~~~#~~~~",  //
                 "~~~~#~~~~",  //
                 "~~~~#~~~~",  //
                 "~~~~#~~~~",  //
                 "~~~~#~~~~",  //
                 "~~~~~~~~~",  //
                 "~~~~~~~~~"});
  const Waterway way = bay.blocks(3);
  REQUIRE(way.grid().cols == 3);
  CHECK(way.water(1));
  CHECK(way.open({0, 0}, 1, 0));        // the middle block stands for the water left of the spit
  CHECK_FALSE(way.open({1, 0}, 1, 0));  // and does not lead through it
  CHECK_FALSE(way.open({1, 1}, 1, 0));
  CHECK(way.open({1, 2}, 1, 0));
  CHECK_FALSE(way.open({1, 0}, 1, 1));
  const auto lengths = water_distance(way, way.grid().centre(0, 0));
  CHECK(lengths[2] > 100.0F);  // 60 m straight
}

TEST_CASE("blocks of one cell are the grid itself") {
  const Bay bay({"~#~", "~~~", "#~#"});
  const Waterway whole = bay.way();
  const Waterway blocks = bay.blocks(1);
  for (int row = 0; row < 3; ++row) {
    for (int col = 0; col < 3; ++col) {
      for (int dx = -1; dx <= 1; ++dx) {
        for (int dy = -1; dy <= 1; ++dy) {
          if (dx != 0 || dy != 0) {
            CHECK(whole.open({col, row}, dx, dy) == blocks.open({col, row}, dx, dy));
          }
        }
      }
    }
  }
}

TEST_CASE("a lattice has no more blocks than asked for, and no fewer than needed") {
  const Grid grid{0, 0, 10.0, 700, 650, "local"};
  CHECK(block_for(grid, 500'000) == 1);
  CHECK(block_for(grid, 200'000) == 2);
  CHECK(block_for(grid, 1) == 700);
}

TEST_CASE("the corner of a coarse block keeps its value when all around it is land") {
  Surfaces surfaces;
  for (auto& month : surfaces.month) {
    month.assign(4, std::numeric_limits<float>::quiet_NaN());
    month[0] = 8.0F;
  }
  const Grid lattice{0.0, 60.0, 30.0, 2, 2, "local"};
  const auto raster = surface_raster(surfaces, lattice, 3);
  CHECK(raster->info().cols == 4);
  CHECK(raster->info().geotransform[0] == -30.0);
  std::vector<float> band(16);
  raster->read(7, {0, 0, 4, 4}, band);
  CHECK(band[5] == 8.0F);
  CHECK(band[1] == 8.0F);
  CHECK(band[4] == 8.0F);
  CHECK(band[6] == 8.0F);
  CHECK(band[9] == 8.0F);
  CHECK(std::isnan(band[0]));
  CHECK(std::isnan(band[10]));
  CHECK(surface_raster(surfaces, lattice, 2)->info().cols == 2);
}
