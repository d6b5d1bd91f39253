// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/sparkline.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <vector>

#include "tidelot/core/text.hpp"

using namespace tidelot;

TEST_CASE("an empty series is an empty line") {
  CHECK(sparkline({}, 60, Glyphs::utf8).empty());
  CHECK(sparkline(std::vector{1.0, 2.0}, 0, Glyphs::ascii).empty());
}

TEST_CASE("eight steps from the lowest to the highest") {
  const std::vector<double> rise{0, 1, 2, 3, 4, 5, 6, 7};
  CHECK(sparkline(rise, 60, Glyphs::ascii) == ".:-=+*#@");
  CHECK(sparkline(rise, 60, Glyphs::utf8) == "▁▂▃▄▅▆▇█");
  CHECK(is_utf8(sparkline(rise, 3, Glyphs::utf8)));
}

TEST_CASE("a flat series stands low; what is not known is blank") {
  CHECK(sparkline(std::vector{3.0, 3.0, 3.0}, 60, Glyphs::ascii) == "...");
  const double unknown = std::numeric_limits<double>::quiet_NaN();
  CHECK(sparkline(std::vector{0.0, unknown, 1.0}, 60, Glyphs::ascii) == ". @");
  CHECK(sparkline(std::vector{unknown, unknown}, 60, Glyphs::ascii) == "  ");
}

TEST_CASE("a long series is averaged into the columns, each day in one part") {
  std::vector<double> days(100, 0.0);
  days[99] = 12.0;
  CHECK(sparkline(days, 10, Glyphs::ascii) == ".........@");
  CHECK(sparkline(std::vector{0.0, 2.0, 8.0, 8.0}, 2, Glyphs::ascii) == ".@");
  CHECK(sparkline(days, 60, Glyphs::ascii).size() == 60);
}

TEST_CASE("the first locale name that is set decides, by its text alone") {
  CHECK(glyphs_of("", "", "") == Glyphs::ascii);
  CHECK(glyphs_of("", "", "en_US.UTF-8") == Glyphs::utf8);
  CHECK(glyphs_of("C", "", "en_US.UTF-8") == Glyphs::ascii);
  CHECK(glyphs_of("", "C.utf8", "C") == Glyphs::utf8);
  CHECK(glyphs_of("de_DE.ISO-8859-1", "C.UTF-8", "C.UTF-8") == Glyphs::ascii);
}
