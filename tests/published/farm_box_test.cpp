// SPDX-License-Identifier: Apache-2.0
// The steady farm box: flow (inflow - C) = VB C/(Ks + C), the balance of a well mixed box with
// Michaelis-Menten uptake. The figures were computed independently from the closed form in double
// precision (N-06, N-07) and are given to seven digits; the limits follow from the equation.
#include "tidelot/growth/farm_box.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "tidelot/growth/model.hpp"

using namespace tidelot;

namespace {

constexpr double kGramsPerMillimole = 14.007e-3;
constexpr double kDay = 86'400.0;

// N-06: 0.05 m/s past 2 m by 100 m; 10 mmol/m3; 2000 kg of dry weight at 20 umol g-1 h-1; Ks 2.
constexpr double kFlow = 0.05 * 2.0 * 100.0;
constexpr double kInflow = 10.0;
constexpr double kVmax = 2.0e6 * 20.0 / 1000.0 / 3600.0;  // mmol/s
constexpr double kHalf = 2.0;

double kg_per_day(double mmol_per_s) { return mmol_per_s * kGramsPerMillimole * kDay / 1000.0; }

}  // namespace

TEST_CASE("N-06: nitrogen inside a farm, its uptake, its supply") {
  const FarmBox box = farm_box(kFlow, kInflow, kVmax, kHalf);
  CHECK(kVmax == Approx(11.1111).margin(5e-5));
  CHECK(box.inside == Approx(9.089283).margin(5e-7));
  CHECK(box.uptake == Approx(9.107174).margin(5e-7));
  CHECK(kg_per_day(box.uptake) == Approx(11.0215).margin(5e-5));
  CHECK(100.0 * (1.0 - box.inside / kInflow) == Approx(9.107).margin(5e-4));
  CHECK(kg_per_day(box.supply) == Approx(121.02).margin(5e-3));
}

TEST_CASE("N-06 by the solver for any uptake") {
  const auto uptake = [](double c) { return michaelis_menten(c, kVmax, kHalf); };
  CHECK(kInflow - nitrogen_drop(kFlow, kInflow, uptake) == Approx(9.089283).margin(5e-7));
  for (const double flow : {1e-6, 1e-3, 0.1, 10.0, 1e4}) {
    for (const double inflow : {0.01, 1.0, 100.0}) {
      const FarmBox box = farm_box(flow, inflow, kVmax, kHalf);
      CHECK(flow * nitrogen_drop(flow, inflow, uptake) == Approx(box.uptake).epsilon(1e-12));
    }
  }
}

TEST_CASE("N-07: what growth asks for is a small part of the supply") {
  const double demand = 2000.0 * 0.05 * 0.03;  // kg DW, 1/d, 3 % N
  const double supply = kg_per_day(farm_box(kFlow, kInflow, kVmax, kHalf).supply);
  CHECK(demand == Approx(3.00).margin(1e-12));
  CHECK(100.0 * demand / supply == Approx(2.5).margin(0.05));
}

TEST_CASE("limits of the farm box") {
  SECTION("a crop without end takes all that comes") {
    for (const double v_max : {1e12, 1e200, 1e300}) {
      const FarmBox box = farm_box(kFlow, kInflow, v_max, kHalf);
      CHECK(box.inside < 1e-8);
      CHECK(box.uptake == Approx(kFlow * kInflow).epsilon(1e-9));
    }
  }
  SECTION("water without end keeps its nitrogen, and the crop's uptake keeps its digits") {
    const FarmBox box = farm_box(1e15, kInflow, kVmax, kHalf);
    CHECK(box.inside == Approx(kInflow).epsilon(1e-14));
    CHECK(box.uptake == Approx(michaelis_menten(kInflow, kVmax, kHalf)).epsilon(1e-14));
  }
  SECTION("no crop takes nothing") {
    const FarmBox box = farm_box(kFlow, kInflow, 0.0, kHalf);
    CHECK(box.inside == Approx(kInflow).epsilon(1e-15));
    CHECK(box.uptake == 0.0);
  }
  SECTION("no nitrogen, no flow: none inside") {
    CHECK(farm_box(kFlow, 0.0, kVmax, kHalf).inside == 0.0);
    CHECK(farm_box(kFlow, 0.0, kVmax, kHalf).uptake == 0.0);
    CHECK(farm_box(0.0, kInflow, kVmax, kHalf).inside == 0.0);
    CHECK(farm_box(0.0, kInflow, kVmax, kHalf).supply == 0.0);
  }
  SECTION("the balance closes over sixteen orders of flow") {
    for (double flow = 1e-8; flow <= 1e8; flow *= 10.0) {
      const FarmBox box = farm_box(flow, kInflow, kVmax, kHalf);
      const double cancelled = 4e-16 * flow * kInflow;  // rounding of inflow - C times the flow
      CHECK(flow * (kInflow - box.inside) == Approx(box.uptake).epsilon(1e-12).margin(cancelled));
    }
  }
}
