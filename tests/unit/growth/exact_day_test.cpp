// SPDX-License-Identifier: Apache-2.0
#include "growth/exact_day.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tidelot;

namespace {

/// The same day in a hundred thousand explicit midpoint steps.
ExactDay small_steps(const DayStart& day, double uptake_per_day) {
  constexpr int kSteps = 100000;
  constexpr double kStep = 1.0 / kSteps;
  double weight = day.weight;
  double reserve = day.reserve;
  double taken = 0.0;
  for (int i = 0; i < kSteps; ++i) {
    const auto slope = [&](double q) {
      return uptake_per_day * (day.q_max - q) - day.net_growth * q;
    };
    const double middle_q = reserve + slope(reserve) * kStep / 2.0;
    const double middle_w = weight * (1.0 + day.net_growth * kStep / 2.0);
    taken += uptake_per_day * (day.q_max - middle_q) * middle_w * kStep;
    reserve += slope(middle_q) * kStep;
    weight += day.net_growth * middle_w * kStep;
  }
  return {weight * std::exp(-day.loss), reserve, taken,
          weight * (1.0 - std::exp(-day.loss)) * reserve};
}

void check_against_small_steps(const DayStart& day, double uptake_per_day) {
  const DayAhead ahead(day);
  const ExactDay exact = ahead.end(uptake_per_day);
  const ExactDay steps = small_steps(day, uptake_per_day);
  CHECK(ahead.taken_up(uptake_per_day) == exact.taken_up);
  CHECK(exact.weight == Approx(steps.weight).epsilon(1e-8));
  CHECK(exact.reserve == Approx(steps.reserve).epsilon(1e-8));
  CHECK(exact.taken_up == Approx(steps.taken_up).epsilon(1e-8).margin(1e-12));
  CHECK(exact.lost == Approx(steps.lost).epsilon(1e-8));
}

}  // namespace

TEST_CASE("a day is solved exactly") {
  check_against_small_steps({100.0, 0.025, 0.09, 0.008, 0.008, 0.045}, 0.2);
  check_against_small_steps({100.0, 0.025, -0.03, 0.02, 0.008, 0.045}, 0.05);
  check_against_small_steps({2.0, 0.04, 0.05, 0.0, 0.008, 0.045}, 1.7);
}

TEST_CASE("a day is exact where its rates cancel") {
  check_against_small_steps({100.0, 0.025, -0.02, 0.008, 0.008, 0.045}, 0.02);          // s = 0
  check_against_small_steps({100.0, 0.025, -0.02, 0.008, 0.008, 0.045}, 0.02 + 1e-12);  // nearly
  check_against_small_steps({100.0, 0.025, 0.0, 0.008, 0.008, 0.045}, 0.0);  // nothing happens
}

TEST_CASE("bounds hold the reserve, and what they give or take is counted") {
  const ExactDay full = DayAhead({100.0, 0.045, -0.03, 0.0, 0.008, 0.045}).end(0.0);
  CHECK(full.reserve == 0.045);
  CHECK(full.taken_up == Approx(100.0 * 0.045 * (std::exp(-0.03) - 1.0)));
  const ExactDay empty = DayAhead({100.0, 0.008, 0.02, 0.0, 0.008, 0.045}).end(0.0);
  CHECK(empty.reserve == 0.008);
  CHECK(empty.taken_up == Approx(100.0 * 0.008 * (std::exp(0.02) - 1.0)));
}

TEST_CASE("exp_slope has no pole") {
  CHECK(exp_slope(0.0) == 1.0);
  CHECK(exp_slope(1e-9) == Approx(1.0 + 0.5e-9).epsilon(1e-15));
  CHECK(exp_slope(1.0) == Approx(std::exp(1.0) - 1.0));
}

TEST_CASE("exp_curvature goes smoothly from series to quotient") {
  CHECK(exp_curvature(0.0, 0.0) == Approx(0.5));
  CHECK(exp_curvature(0.3, -0.3) ==
        Approx((exp_slope(0.3) - exp_slope(-0.3)) / 0.6).epsilon(1e-14));
  CHECK(exp_curvature(0.1, -0.85) ==
        Approx((exp_slope(0.1) - exp_slope(-0.85)) / 0.95).epsilon(1e-14));
  CHECK(exp_curvature(0.1, -1.0) ==
        Approx((exp_slope(0.1) - exp_slope(-1.0)) / 1.1).epsilon(1e-14));
  // where both are equal: the derivative of (e^x - 1)/x
  CHECK(exp_curvature(0.5, 0.5) == Approx((0.5 * std::exp(0.5) - std::exp(0.5) + 1.0) / 0.25));
}
