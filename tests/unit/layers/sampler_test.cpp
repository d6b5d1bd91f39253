// SPDX-License-Identifier: Apache-2.0
#include "tidelot/layers/sampler.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "layers/stencil.hpp"
#include "support/twins.hpp"

using namespace tidelot;
using twins::kNan;

namespace {

float at(RasterSource& source, double col, double row) {
  float value = -1.0F;
  const XY position{col, row};
  sample_bilinear(source, 0, {&position, 1}, {&value, 1});
  return value;
}

/// The definition, written the long way.
double by_definition(const std::vector<float>& v, int cols, int rows, XY p) {
  double weight = 0.0;
  double sum = 0.0;
  for (int r = 0; r < rows; ++r) {
    for (int c = 0; c < cols; ++c) {
      const double wx = std::max(0.0, 1.0 - std::abs(p.x - 0.5 - c));
      const double wy = std::max(0.0, 1.0 - std::abs(p.y - 0.5 - r));
      const float value = v[static_cast<std::size_t>(r * cols + c)];
      if (!std::isnan(value)) {
        weight += wx * wy;
        sum += wx * wy * value;
      }
    }
  }
  return weight >= 0.5 ? sum / weight : std::nan("");
}

Grid grid_of_cells(int cols, int rows, double cell_m) {
  return {490000.0, 4503000.0, cell_m, cols, rows, "local"};
}

}  // namespace

TEST_CASE("a pixel's centre gives the pixel, halfway gives the mean") {
  auto source = twins::raster(2, 2, 1, 0, 0, 1, -1, {1, 2, 3, 5});
  CHECK(at(*source, 0.5, 0.5) == 1.0F);
  CHECK(at(*source, 1.5, 1.5) == 5.0F);
  CHECK(at(*source, 1.0, 0.5) == 1.5F);
  CHECK(at(*source, 1.0, 1.0) == 2.75F);
}

TEST_CASE("outside the raster there is no value, and half a pixel around the centres there is") {
  auto source = twins::raster(2, 2, 1, 0, 0, 1, -1, {1, 2, 3, 5});
  CHECK(at(*source, 0.0, 0.5) == 1.0F);  // weight of the column is exactly one half
  CHECK(at(*source, 2.0, 0.5) == 2.0F);
  CHECK(at(*source, 0.5, 2.0) == 3.0F);
  CHECK(std::isnan(at(*source, -1e-9, 0.5)));
  CHECK(std::isnan(at(*source, 2.0000001, 0.5)));
  CHECK(std::isnan(at(*source, 0.0, 0.0)));  // a corner holds a quarter of the weight
  CHECK(std::isnan(at(*source, std::nan(""), 0.5)));
}

TEST_CASE("neighbours without data are left out where the others reach one half") {
  auto source = twins::raster(2, 2, 1, 0, 0, 1, -1, {10, kNan, 10, kNan});
  CHECK(at(*source, 1.0, 1.0) == 10.0F);           // exactly one half
  CHECK(std::isnan(at(*source, 1.0000001, 1.0)));  // just less
  auto one = twins::raster(2, 2, 1, 0, 0, 1, -1, {10, kNan, kNan, kNan});
  CHECK(std::isnan(at(*one, 1.0, 1.0)));
  CHECK(at(*one, 0.75, 0.75) == 10.0F);  // 0.75 * 0.75 = 0.5625
}

TEST_CASE("a neighbour of weight zero never spoils a value") {
  auto source = twins::raster(2, 1, 1, 0, 0, 1, -1, {7, kNan});
  CHECK(at(*source, 0.5, 0.5) == 7.0F);
}

TEST_CASE("random positions over random holes agree with the definition") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> place(-0.3, 9.3);
  std::uniform_real_distribution<float> value(-5.0F, 30.0F);
  std::vector<float> v(81);
  for (float& x : v) {
    x = random() % 4 == 0 ? kNan : value(random);
  }
  auto source = twins::raster(9, 9, 1, 0, 0, 1, -1, v);
  std::vector<XY> positions(20000);
  for (XY& p : positions) {
    p = {std::round(place(random) * 1024) / 1024, std::round(place(random) * 1024) / 1024};
  }
  std::vector<float> out(positions.size());
  sample_bilinear(*source, 0, positions, out);
  for (std::size_t i = 0; i < positions.size(); ++i) {
    CAPTURE(positions[i].x, positions[i].y);
    const XY p = positions[i];
    const bool inside = p.x >= 0 && p.x <= 9 && p.y >= 0 && p.y <= 9;
    const double expected = inside ? by_definition(v, 9, 9, p) : std::nan("");
    REQUIRE(std::isnan(out[i]) == std::isnan(expected));
    if (!std::isnan(expected)) {
      REQUIRE(out[i] == Approx(expected).epsilon(1e-6).margin(1e-6));
    }
  }
}

TEST_CASE("cutting a large block into smaller ones changes nothing") {
  std::vector<float> v(200 * 200);
  for (std::size_t i = 0; i < v.size(); ++i) {
    v[i] = static_cast<float>((i * 7919) % 1000);
  }
  auto source = twins::raster(200, 200, 1, 0, 0, 1, -1, v);
  std::vector<XY> positions;
  for (int i = 0; i < 5000; ++i) {
    positions.push_back({(i * 37 % 2000) / 10.0, (i * 91 % 2000) / 10.0});
  }
  std::vector<float> whole(positions.size());
  std::vector<float> cut(positions.size());
  sample_bilinear(*source, 0, positions, whole);
  apply(make_stencils(source->info(), positions, 64), *source, 0, EdgeRule::half, cut);
  for (std::size_t i = 0; i < whole.size(); ++i) {
    REQUIRE((whole[i] == cut[i] || (std::isnan(whole[i]) && std::isnan(cut[i]))));
  }
}

TEST_CASE("missing neighbours: how much of the weight must be there, and what there is") {
  // Two columns; the right one has no data.
  auto source = twins::raster(2, 2, 1, 0, 0, 1, -1, {3.0F, kNan, 3.0F, kNan});
  const std::vector<XY> positions{{0.5, 1.0}, {0.75, 1.0}, {1.25, 1.0}, {1.5, 1.0}, {9.0, 1.0}};
  const auto stencils = make_stencils(source->info(), positions);
  const auto known = [&](EdgeRule edge) {
    std::vector<float> out(positions.size());
    std::vector<float> share(positions.size(), 1.0F);
    apply(stencils, *source, 0, edge, out, share);
    CHECK(share[0] == 1.0F);
    CHECK(share[1] == Approx(0.75F));
    CHECK(share[2] == Approx(0.25F));
    CHECK(share[3] == 0.0F);
    CHECK(share[4] == 0.0F);
    std::string text;
    for (const float value : out) {
      CHECK((std::isnan(value) || value == 3.0F));
      text += std::isnan(value) ? '.' : 'v';
    }
    return text;
  };
  CHECK(known(EdgeRule::half) == "vv...");
  CHECK(known(EdgeRule::full) == "v....");
  CHECK(known(EdgeRule::any) == "vvv..");
}

TEST_CASE("a share that a layer before lowered is not raised again") {
  auto source = twins::raster(2, 2, 1, 0, 0, 1, -1, {3.0F, 3.0F, 3.0F, 3.0F});
  const std::vector<XY> positions{{1.0, 1.0}};
  std::vector<float> out(1);
  std::vector<float> share{0.25F};
  apply(make_stencils(source->info(), positions), *source, 0, EdgeRule::half, out, share);
  CHECK(share[0] == 0.25F);
}

TEST_CASE("positions stay within a centimetre of the exact ones") {
  const double cell_m = GENERATE(2.0, 10.0, 100.0, 1000.0);
  const Grid grid = grid_of_cells(150, 130, cell_m);
  auto source = twins::raster(360, 180, 1, -31, 42, 0.01, -0.01, std::vector<float>(360 * 180));
  auto projector = twins::projector_between("local", "EPSG:4326");
  const Tile tile{3, 5, 140, 120};
  const auto positions = source_positions(grid, tile, projector, source->info());
  double worst = 0.0;
  for (int row = 0; row < tile.rows; ++row) {
    for (int col = 0; col < tile.cols; ++col) {
      const XY p = positions[static_cast<std::size_t>(row * tile.cols + col)];
      const XY back = twins::to_local({-31 + 0.01 * p.x, 42 - 0.01 * p.y});
      const XY want = grid.centre(tile.col0 + col, tile.row0 + row);
      worst = std::max(worst, std::hypot(back.x - want.x, back.y - want.y));
    }
  }
  CHECK(worst <= 0.01);
  if (cell_m <= 10.0) {
    CHECK(projector.calls < 140 * 120 / 4);
  }
}

TEST_CASE("a cell's position does not depend on the tile it is asked for in") {
  const Grid grid = grid_of_cells(200, 200, 50.0);
  auto source = twins::raster(360, 180, 1, -31, 42, 0.01, -0.01, std::vector<float>(360 * 180));
  auto projector = twins::projector_between("local", "EPSG:4326");
  const auto whole = source_positions(grid, {0, 0, 200, 200}, projector, source->info());
  for (const Tile& tile : tiles_of(grid, 37)) {
    const auto part = source_positions(grid, tile, projector, source->info());
    for (int row = 0; row < tile.rows; ++row) {
      for (int col = 0; col < tile.cols; ++col) {
        REQUIRE(part[static_cast<std::size_t>(row * tile.cols + col)] ==
                whole[grid.index(tile.col0 + col, tile.row0 + row)]);
      }
    }
  }
}

TEST_CASE("a raster on the grid itself is passed through bit for bit") {
  const Grid grid = grid_of_cells(40, 30, 10.0);
  std::vector<float> v(40 * 30);
  for (std::size_t i = 0; i < v.size(); ++i) {
    v[i] = static_cast<float>(i) * 0.1F;
  }
  auto source = twins::raster(40, 30, 1, grid.west, grid.north, 10, -10, v, false);
  auto projector = twins::projector_between("local", "local");
  const auto positions = source_positions(grid, {0, 0, 40, 30}, projector, source->info());
  std::vector<float> out(v.size());
  sample_bilinear(*source, 0, positions, out);
  CHECK(out == v);
}

TEST_CASE("north-up and south-up twins give the same values") {
  const Grid grid = grid_of_cells(60, 50, 10.0);
  std::vector<float> v(20 * 20);
  std::vector<float> flipped(v.size());
  for (std::size_t i = 0; i < v.size(); ++i) {
    v[i] = i % 11 == 3 ? kNan : static_cast<float>(i * 31 % 97);
    flipped[(19 - i / 20) * 20 + i % 20] = v[i];
  }
  auto north = twins::raster(20, 20, 1, -30.13, 41.03, 0.001, -0.001, v);
  auto south = twins::raster(20, 20, 1, -30.13, 41.01, 0.001, 0.001, flipped);
  auto projector = twins::projector_between("local", "EPSG:4326");
  const Tile all{0, 0, 60, 50};
  std::vector<float> a(all.size());
  std::vector<float> b(all.size());
  sample_bilinear(*north, 0, source_positions(grid, all, projector, north->info()), a);
  sample_bilinear(*south, 0, source_positions(grid, all, projector, south->info()), b);
  int valid = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    REQUIRE(std::isnan(a[i]) == std::isnan(b[i]));
    valid += std::isnan(a[i]) ? 0 : 1;
    if (!std::isnan(a[i])) {
      REQUIRE(a[i] == Approx(b[i]).margin(2e-4));  // 41.03 and 41.01 differ in their last bits
    }
  }
  CHECK(valid > 500);
}

TEST_CASE("a rotated raster is sampled through its inverse geotransform") {
  const Grid grid = grid_of_cells(10, 10, 10.0);
  RasterInfo info;
  info.cols = 400;
  info.rows = 400;
  info.bands = 1;
  const double s = std::sin(0.5);
  const double c = std::cos(0.5);
  info.geotransform = {489500.0, 5 * c, 5 * s, 4503000.0, 5 * s, -5 * c};
  auto projector = twins::projector_between("local", "local");
  const auto p = source_positions(grid, {4, 7, 1, 1}, projector, info).front();
  const auto& g = info.geotransform;
  const XY centre = grid.centre(4, 7);
  CHECK(g[0] + p.x * g[1] + p.y * g[2] == Approx(centre.x).epsilon(0).margin(1e-6));
  CHECK(g[3] + p.x * g[4] + p.y * g[5] == Approx(centre.y).epsilon(0).margin(1e-6));
}

TEST_CASE("longitudes are wrapped into a raster from 0 to 360 or 20 to 380") {
  const Grid grid = grid_of_cells(4, 4, 100.0);
  const double west = GENERATE(0.0, 20.0, -180.0, -360.0, 340.0);
  auto projector = twins::projector_between("local", "EPSG:4326");
  auto source = twins::raster(180, 90, 1, west, 90, 2, -2, std::vector<float>(180 * 90));
  const XY p = source_positions(grid, {0, 0, 1, 1}, projector, source->info()).front();
  const double lon = west + p.x * 2;
  const double want = twins::to_degrees(grid.centre(0, 0)).x;
  CHECK(p.x >= 0.0);
  CHECK(p.x < 180.0);
  CHECK(std::cos((lon - want) * twins::kRadian) == Approx(1.0).epsilon(1e-12));
}

TEST_CASE("a raster round the earth is continuous over its seam") {
  std::vector<float> v(36 * 2, 0.0F);
  v[0] = v[36] = 10.0F;   // first column
  v[35] = v[71] = 20.0F;  // last column
  auto source = twins::raster(36, 2, 1, 0, 10, 10, -10, v);
  CHECK(at(*source, 0.0, 1.0) == 15.0F);
  CHECK(at(*source, 0.25, 1.0) == 12.5F);
  CHECK(at(*source, 35.75, 1.0) == 17.5F);
  auto cut = twins::raster(35, 2, 1, 0, 10, 10, -10, std::vector<float>(70, 1.0F));
  CHECK(std::isnan(at(*cut, 35.2, 1.0)));
}
