// SPDX-License-Identifier: Apache-2.0
#include "season/ten_days.hpp"

#include <catch2/catch.hpp>
#include <random>

#include "tidelot/season/daily.hpp"

using namespace tidelot;

namespace {

using Nodes = std::array<float, kMonths>;

Nodes random_nodes(std::mt19937& random) {
  Nodes nodes{};
  for (float& node : nodes) {
    node = std::uniform_real_distribution<float>(0.0F, 30.0F)(random);
  }
  return nodes;
}

double added_up(const Nodes& nodes, int day) {
  std::array<double, kMonths> wide{};
  std::copy(nodes.begin(), nodes.end(), wide.begin());
  double sum = 0.0;
  for (int back = 0; back < 10; ++back) {
    sum += daily_value(wide, day - back) / 10.0;
  }
  return sum;
}

}  // namespace

TEST_CASE("the ten-day mean is the mean of the ten daily values") {
  std::mt19937 random(1);
  const Nodes nodes = random_nodes(random);
  const TenDayMeans means(nodes);
  for (int day = -300; day <= 700; ++day) {
    CHECK(means.mean(day) == Approx(added_up(nodes, day)).epsilon(1e-12));
  }
}

TEST_CASE("equal nodes give their value to the last bit") {
  Nodes nodes{};
  nodes.fill(15.1F);
  const TenDayMeans means(nodes);
  for (int day = 1; day <= kDaysPerYear; ++day) {
    REQUIRE(means.mean(day) == 15.1F);
  }
}

TEST_CASE("a run of warm days is as long as counting says") {
  std::mt19937 random(2);
  for (int n = 0; n < 500; ++n) {
    const Nodes nodes = random_nodes(random);
    const TenDayMeans means(nodes);
    const int start = 1 + n % kDaysPerYear;
    for (const int step : {-1, 1}) {
      int run = 0;
      while (run < kDaysPerYear - 1 && means.mean(start + step * (run + 1)) >= 12.0) {
        ++run;
      }
      REQUIRE(means.warm_run(start, step, 12.0) == run);
    }
  }
}

TEST_CASE("the warm day lies in the run of the greatest mean") {
  std::mt19937 random(3);
  for (int n = 0; n < 500; ++n) {
    const TenDayMeans means(random_nodes(random));
    int peak = 1;
    for (int day = 2; day <= kDaysPerYear; ++day) {
      peak = means.mean(day) > means.mean(peak) ? day : peak;
    }
    const double threshold = 20.0;
    const int warm = means.warm_day(threshold);
    if (means.mean(peak) < threshold) {
      CHECK(means.mean(warm) == Approx(means.mean(peak)));
    } else {
      const int before = means.warm_run(peak, -1, threshold);
      const int after = means.warm_run(peak, 1, threshold);
      const int ahead = (warm - (peak - before) + 2 * kDaysPerYear) % kDaysPerYear;
      CHECK(ahead <= before + after);
    }
  }
}
