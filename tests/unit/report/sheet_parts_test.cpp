// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <numeric>

#include "report/sheets/contours.hpp"
#include "report/sheets/frame.hpp"
#include "report/sheets/hatches.hpp"
#include "report/sheets/paper.hpp"
#include "report/sheets/regions.hpp"
#include "support/report_fixture.hpp"

using namespace tidelot;
using namespace tidelot::sheet;

namespace {

/// Even-odd fill of rings back into cells.
std::vector<std::uint8_t> filled(int cols, int rows, const std::vector<Ring>& rings) {
  std::vector<std::uint8_t> out;
  for (int row = 0; row < rows; ++row) {
    for (int col = 0; col < cols; ++col) {
      int crossings = 0;
      for (const Ring& ring : rings) {
        for (std::size_t i = 0; i < ring.size(); ++i) {
          const Corner a = ring[i];
          const Corner b = ring[(i + 1) % ring.size()];
          const bool upright = a.col == b.col;
          crossings += upright && a.col <= col && std::min(a.row, b.row) <= row &&
                               row < std::max(a.row, b.row)
                           ? 1
                           : 0;
        }
      }
      out.push_back(static_cast<std::uint8_t>(crossings % 2));
    }
  }
  return out;
}

double length(const Isoline& line) {
  double sum = 0.0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    sum += std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
  }
  return sum;
}

}  // namespace

TEST_CASE(
    "Outlines filled by the even-odd rule give the cells back, holes and touching corners too") {
  const std::vector<std::uint8_t> ring_with_hole{1, 1, 1, 0,  //
                                                 1, 0, 1, 0,  //
                                                 1, 1, 1, 0,  //
                                                 0, 0, 0, 1};
  CHECK(filled(4, 4, outlines(4, 4, ring_with_hole, 1)) == ring_with_hole);
  CHECK(outlines(4, 4, ring_with_hole, 1).size() == 3);
  CHECK(outlines(4, 4, ring_with_hole, 7).empty());
}

TEST_CASE("Outlines of cells thrown at random give the cells back") {
  std::uint32_t state = 12345;
  for (int round = 0; round < 200; ++round) {
    std::vector<std::uint8_t> cells(13 * 9);
    for (std::uint8_t& cell : cells) {
      state = state * 1664525U + 1013904223U;
      cell = static_cast<std::uint8_t>(state >> 31U);
    }
    REQUIRE(filled(13, 9, outlines(13, 9, cells, 1)) == cells);
  }
}

TEST_CASE("A ring turns at every corner") {
  const std::vector<std::uint8_t> square(25, 1);
  const auto rings = outlines(5, 5, square, 1);
  REQUIRE(rings.size() == 1);
  CHECK(rings[0] == Ring{{0, 0}, {5, 0}, {5, 5}, {0, 5}});
}

TEST_CASE("The middle of a class lies deepest in it") {
  std::vector<std::uint8_t> cells(7 * 5, 0);
  for (int row = 1; row < 4; ++row) {
    for (int col = 2; col < 5; ++col) {
      cells[static_cast<std::size_t>(row * 7 + col)] = 1;
    }
  }
  const Middle middle = middle_of(7, 5, cells, 1);
  CHECK(middle.col == 3.5);
  CHECK(middle.row == 2.5);
  CHECK(middle_of(7, 5, cells, 9).reach == 0.0);
}

TEST_CASE("A contour of a plane is a straight line where the plane has the level") {
  std::vector<float> plane;
  for (int row = 0; row < 6; ++row) {
    for (int col = 0; col < 8; ++col) {
      plane.push_back(static_cast<float>(col));
    }
  }
  const auto lines = isolines(8, 6, plane, 2.5);
  REQUIRE(lines.size() == 1);
  CHECK(length(lines[0]) == Approx(5.0));
  for (const XY& at : lines[0]) {
    CHECK(at.x == Approx(2.5));
  }
  CHECK(isolines(8, 6, plane, 99.0).empty());
}

TEST_CASE("The contour of a cone is a circle of its radius, closed") {
  std::vector<float> cone;
  for (int row = 0; row < 101; ++row) {
    for (int col = 0; col < 101; ++col) {
      cone.push_back(static_cast<float>(std::hypot(col - 50.0, row - 50.0)));
    }
  }
  const auto lines = isolines(101, 101, cone, 30.0);
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].front() == lines[0].back());
  CHECK(length(lines[0]) == Approx(2.0 * std::numbers::pi * 30.0).epsilon(0.002));
  CHECK(thinned(lines[0], 0.2).size() < lines[0].size() / 3);
}

TEST_CASE("A contour ends where a value is missing, and a saddle is parted by its mean") {
  const float nan = std::nanf("");
  CHECK(isolines(2, 2, std::vector<float>{0, 1, 0, nan}, 0.5).empty());
  const auto parted = isolines(2, 2, std::vector<float>{1, 0, 0, 1}, 0.4);
  REQUIRE(parted.size() == 2);  // the mean is above: the low corners are cut off
  for (const Isoline& line : parted) {
    const XY middle{(line[0].x + line[1].x) / 2, (line[0].y + line[1].y) / 2};
    CHECK(std::abs(middle.x - middle.y) > 0.3);
  }
}

TEST_CASE("Contour steps are 1, 2 or 5 times a power of ten and few enough") {
  CHECK(contour_step(0.0, 8.0, 9) == 1.0);
  CHECK(contour_step(0.0, 18.0, 9) == 5.0);
  CHECK(contour_step(1.0, 18.0, 9) == 2.0);
  CHECK(contour_step(0.0, 400.0, 9) == 50.0);
}

TEST_CASE("A scale is the smallest round one that fits") {
  CHECK(round_scale(100.0, 100.0) == 1000.0);
  CHECK(round_scale(101.0, 100.0) == 1500.0);
  CHECK(round_scale(6700.0, 140.0) == 50000.0);
  CHECK(round_scale(810.0, 100.0) == 10000.0);
  CHECK(scale_words(12500.0) == "1 : 12 500");
}

TEST_CASE("A kilometre on the ground is as long on paper as the scale says") {
  const Extent extent{500000.0, 4540000.0, 503000.0, 4543500.0};
  for (const double grid_scale : {0.9996, 1.0, 1.0012}) {
    const Frame frame = frame_of(extent, grid_scale, 183.0, 140.0);
    const Spot a = frame.spot({500000.0, 4543500.0});
    const Spot b = frame.spot({500000.0 + 1000.0 * grid_scale, 4543500.0});
    CHECK((b.x - a.x) * frame.denominator == Approx(1000.0 * 1000.0));
    CHECK(frame.width <= 183.0);
    CHECK(frame.height <= 140.0);
  }
}

TEST_CASE("A filled frame uses the paper and keeps inside the grid where it can") {
  const Extent within{0.0, 0.0, 5000.0, 5000.0};
  const Frame frame = filled_frame({100.0, 100.0, 300.0, 250.0}, within, 1.0, 180.0, 100.0);
  CHECK(frame.width == Approx(180.0));
  CHECK(frame.height == Approx(100.0));
  CHECK(frame.extent.west >= 0.0);
  CHECK(frame.extent.south >= 0.0);
  CHECK(frame.extent.east >= 300.0);
}

TEST_CASE("No label stands on another, and none leaves the paper") {
  sheet::Labels labels(60.0, 40.0);
  const std::string first = labels.on({30.0, 20.0}, "12.3");
  CHECK(first.find("12.3") != std::string::npos);
  CHECK(labels.on({31.0, 20.5}, "12.4").empty());
  CHECK(labels.on({59.9, 39.9}, "12.5").empty());
  CHECK(!labels.near({30.0, 20.0}, "S01").empty());
  sheet::Labels full(4.0, 4.0);
  CHECK(full.near({2.0, 2.0}, "a name that is far too long").empty());
}

TEST_CASE("Words and labels are escaped, lengths are short") {
  CHECK(words({1.0, 2.0}, "<b>&\"'").find("&lt;b&gt;&amp;&quot;") != std::string::npos);
  CHECK(drawing(10.0, 5.0, "\"><script>", "").find("<script>") == std::string::npos);
  CHECK(mm(1.0) == "1");
  CHECK(mm(0.504) == "0.5");
  CHECK(mm(-0.001) == "0");
}

TEST_CASE("Every hatch that is used is defined") {
  const std::string all = pattern_definitions();
  const auto defined = [&](std::string_view fill) {
    return all.find("id=\"" + std::string(fill.substr(5, fill.size() - 6)) + "\"") !=
           std::string::npos;
  };
  for (const std::string_view fill : {kLand, kUnknown, kClosed, kBed}) {
    CHECK(defined(fill));
  }
  for (std::size_t i = 0; i < kSteps; ++i) {
    CHECK(defined(step_fill(i)));
  }
  for (std::size_t i = 0; i < kClasses; ++i) {
    CHECK(defined(class_fill(i)));
  }
}
