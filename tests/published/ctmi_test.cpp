// SPDX-License-Identifier: Apache-2.0
// Rosso, Lobry & Flandrois 1993, J. Theor. Biol. 162:447: the cardinal temperature model with
// inflection. The equation is from memory; the values were computed independently from it.
#include <array>
#include <catch2/catch.hpp>
#include <cmath>

#include "tidelot/growth/model.hpp"
#include "tidelot/plan/crop_profile.hpp"

using namespace tidelot;

namespace {

struct Point {
  double temperature;
  double factor;
};

}  // namespace

TEST_CASE("T-01 CTMI of 5, 20, 30 degC, computed independently, to 1e-6") {
  for (const Point& p : {Point{5, 0},
                         {10, 0.333333},
                         {15, 0.800000},
                         {22, 0.963333},
                         {25, 0.761905},
                         {28, 0.371228},
                         {30, 0}}) {
    CHECK(ctmi(p.temperature, 5, 20, 30) == Approx(p.factor).margin(1e-6));
  }
}

TEST_CASE("T-02 CTMI of 8, 25, 34.2 degC, computed independently, to 1e-4") {
  for (const Point& p :
       {Point{10, 0.0421}, {15, 0.3886}, {20, 0.8051}, {29, 0.8327}, {32, 0.4485}}) {
    CHECK(ctmi(p.temperature, 8, 25, 34.2) == Approx(p.factor).margin(1e-4));
  }
}

TEST_CASE("T-04 CTMI is 1 and level at its optimum, 0 outside its limits") {
  CHECK(ctmi(25, 8, 25, 34.05) == Approx(1.0).epsilon(1e-14));
  CHECK((ctmi(25.001, 8, 25, 34.05) - ctmi(24.999, 8, 25, 34.05)) / 0.002 ==
        Approx(0.0).margin(1e-5));
  for (const double outside : {-5.0, 8.0, 34.05, 50.0}) {
    CHECK(ctmi(outside, 8, 25, 34.05) == 0.0);
  }
  for (double t = 8.1; t < 34.0; t += 0.1) {
    CHECK((ctmi(t, 8, 25, 34.05) > 0.0 && ctmi(t, 8, 25, 34.05) <= 1.0 + 1e-12));
  }
}

TEST_CASE("T-04 CTMI with its optimum at or below the middle is refused") {
  Crop crop = built_in_crop("warm-red-alga");
  for (CropConstant& c : crop.constants) {
    c.value = c.name == "t_opt" ? 21.0 : c.value;  // the middle is 21.025
  }
  CHECK_THROWS_AS(alga_constants(crop), std::invalid_argument);
}
