// SPDX-License-Identifier: Apache-2.0
#include "run/plane_fit.hpp"

#include <catch2/catch.hpp>
#include <numeric>

using namespace tidelot;
using run::PlaneFit;

namespace {

double value(const std::vector<XY>& spots, XY place) {
  const auto weights = PlaneFit(spots).weights(place);
  double sum = 0.0;
  for (std::size_t k = 0; k < spots.size(); ++k) {
    sum += weights[k] * (2.0 + 3.0 * spots[k].x - 0.5 * spots[k].y);
  }
  return sum;
}

}  // namespace

TEST_CASE("a plane is met everywhere, between its spots and beyond", "[run]") {
  for (const XY place : {XY{1, 2}, XY{7.5, 3}, XY{-40, 100}}) {
    const double plane = 2.0 + 3.0 * place.x - 0.5 * place.y;
    CHECK(value({{0, 0}, {15, 0}, {0, 15}, {15, 15}}, place) == Approx(plane).epsilon(1e-6));
    CHECK(value({{0, 0}, {15, 2}, {3, 15}}, place) == Approx(plane).epsilon(1e-6));
  }
}

TEST_CASE("spots in a line, and one alone, still give weights that add up to one", "[run]") {
  for (const std::vector<XY>& spots : {std::vector<XY>{{0, 0}, {5, 5}, {10, 10}},
                                       std::vector<XY>{{3, 4}}, std::vector<XY>{{3, 4}, {3, 4}}}) {
    const auto weights = PlaneFit(spots).weights({8.0, 1.0});
    CHECK(std::accumulate(weights.begin(), weights.end(), 0.0) == Approx(1.0));
  }
  CHECK(value({{0, 0}, {5, 5}, {10, 10}}, {5, 5}) == Approx(2.0 + 3.0 * 5 - 0.5 * 5));
}

TEST_CASE("the nearest spot is the first of equals", "[run]") {
  const PlaneFit fit({{0, 0}, {10, 0}, {5, 5}});
  CHECK(fit.nearest({1, 1}) == 0);
  CHECK(fit.nearest({9, -3}) == 1);
  CHECK(fit.nearest({5, 0}) == 0);
}
