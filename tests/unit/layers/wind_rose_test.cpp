// SPDX-License-Identifier: Apache-2.0
#include "tidelot/layers/wind_rose.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>
#include <string>

using namespace tidelot;
using Catch::Contains;

namespace {

WindRose read(const std::string& text, double height_m = 10.0) {
  return wind_rose(parse_csv(text), height_m);
}

std::string refusal(const std::string& text) {
  try {
    (void)read(text);
  } catch (const std::invalid_argument& e) {
    return e.what();
  }
  return "no failure";
}

const std::string kFour =
    "direction,speed,share\n0,5,0.2\n0,12,0.05\n90,4,0.2\n270,6,0.3\n180,3,0.1\n";

}  // namespace

TEST_CASE("a wind rose by direction, with what is missing as calm") {
  const WindRose rose = read(kFour);
  REQUIRE(rose.sectors.size() == 4);
  CHECK(rose.sectors[0].classes.size() == 2);
  CHECK(rose.sectors[0].classes[1].speed == 12.0);
  CHECK(rose.sectors[2].from_deg == 180.0);
  CHECK(rose.calm == Approx(0.15));
  CHECK(rose.sectors[0].speed_50y == 0.0);
}

TEST_CASE("percent, 360 for north, wind at another height, high winds given") {
  const WindRose rose = read(
      "Direction,Speed,Percent,speed_1y,speed_50y\n360,5,20,15,25\n90,4,20,14,\n180,3,10,,\n"
      "270,6,30,16,28\n",
      4.0);
  const double up = std::pow(10.0 / 4.0, 1.0 / 7.0);
  CHECK(rose.sectors[0].from_deg == 0.0);
  CHECK(rose.sectors[0].classes[0].share == Approx(0.2));
  CHECK(rose.sectors[0].classes[0].speed == Approx(5.0 * up));
  CHECK(rose.sectors[3].speed_50y == Approx(28.0 * up));
  CHECK(rose.sectors[1].speed_50y == 0.0);
  CHECK(rose.calm == Approx(0.2));
}

TEST_CASE("a rose that cannot be one is refused with its row or column") {
  CHECK_THAT(refusal("direction,speed\n0,5\n"), Contains("no column \"share\""));
  CHECK_THAT(refusal("direction,speed,share\n0,5,0.2\n90,x,0.2\n"), Contains("row 3: speed"));
  CHECK_THAT(refusal("direction,speed,share\n0,5,20\n"), Contains("row 2: share"));
  CHECK_THAT(refusal("direction,speed,share\n0,5,.2\n90,5,.2\n"), Contains("2 directions; 4"));
  CHECK_THAT(refusal("direction,speed,share\n0,5,.2\n90,5,.2\n180,5,.2\n260,5,.2\n"),
             Contains("not evenly spaced"));
  CHECK_THAT(refusal("direction,speed,share\n0,5,.9\n90,5,.2\n180,5,.2\n270,5,.2\n"),
             Contains("add up to"));
  CHECK_THAT(refusal("direction,speed,share,speed_50y\n0,5,.1,20\n0,9,.1,22\n90,5,.2,\n"),
             Contains("row 3: speed_50y differs"));
}

TEST_CASE("a wind of fifty years below that of one is refused") {
  const std::string head = "direction,speed,share,speed_1y,speed_50y\n";
  const auto rows = [&](const std::string& high) {
    return head + "0,5,0.2," + high + "\n90,5,0.2,,\n180,5,0.2,,\n270,5,0.2,,\n";
  };
  CHECK(refusal(rows("20,10")) ==
        "direction 0: speed_50y (10) is below speed_1y (20); were the two columns swapped?");
  CHECK(read(rows("20,20")).sectors[0].speed_50y == 20.0);
  CHECK(read(rows("20,")).sectors[0].speed_50y == 0.0);  // not given
}
