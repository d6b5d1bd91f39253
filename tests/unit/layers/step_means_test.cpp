// SPDX-License-Identifier: Apache-2.0
#include "layers/step_means.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "layers/step_sums.hpp"
#include "support/twins.hpp"

using namespace tidelot;
using twins::kNan;

namespace {

/// 3 x 2 pixels; value(step, pixel).
template <typename Value>
std::unique_ptr<RasterSource> steps_of(const std::vector<TimeStep>& steps, const Value& value) {
  std::vector<float> values;
  for (int step = 0; step < static_cast<int>(steps.size()); ++step) {
    for (int pixel = 0; pixel < 6; ++pixel) {
      values.push_back(static_cast<float>(value(step, pixel)));
    }
  }
  auto raster = twins::raster(3, 2, static_cast<int>(steps.size()), 0, 0, 1, -1, values);
  RasterInfo info = raster->info();
  info.steps = steps;
  return std::make_unique<MemoryRaster>(info, std::make_shared<const std::vector<float>>(values));
}

StepUse use(YearNodes nodes, int steps, bool closed = false) {
  StepUse out;
  out.nodes = nodes;
  out.closed = closed;
  for (int i = 0; i < steps; ++i) {
    out.order.push_back(i);
  }
  return out;
}

std::vector<float> band(RasterSource& source, int number) {
  std::vector<float> out(6);
  source.read(number, {0, 0, 3, 2}, out);
  return out;
}

StepSource one(std::unique_ptr<RasterSource> source, StepUse how) {
  StepSource out;
  out.parts.push_back(std::move(source));
  out.use = std::move(how);
  return out;
}

}  // namespace

TEST_CASE("a month is the mean of its years, each year's month first") {
  // two Januaries: of three steps (1, 2, 3) and of one (10); pixel 1 lacks the second step
  const std::vector<TimeStep> steps{
      {2001, 0, 1, 1}, {2001, 0, 2, 2}, {2001, 0, 3, 3}, {2002, 0, 1, 366}};
  const auto value = [](int step, int pixel) {
    return step == 3                 ? 10.0F
           : pixel == 1 && step == 1 ? kNan
           : pixel == 5              ? kNan
                                     : static_cast<float>(step) + 1.0F;
  };
  auto made = prepare_steps(one(steps_of(steps, value), use(YearNodes::months, 4)), {0, 0, 3, 2});
  const auto january = band(*made.source, 0);
  CHECK(january[0] == 6.0F);
  CHECK(january[1] == 6.0F);  // (1 + 3) / 2 and 10
  CHECK(january[5] == 10.0F);
  CHECK(std::isnan(band(*made.source, 1)[0]));
}

TEST_CASE("what does not fit in memory is worked out anew and is the same") {
  std::vector<TimeStep> steps;
  for (int month = 0; month < 24; ++month) {
    steps.push_back({2001 + month / 12, month % 12, 1 + 30 * (month % 12), 30 * month});
  }
  const auto value = [](int step, int pixel) { return step * 1.5 + pixel * pixel; };
  auto kept = prepare_steps(one(steps_of(steps, value), use(YearNodes::months, 24)), {0, 0, 3, 2});
  auto anew =
      prepare_steps(one(steps_of(steps, value), use(YearNodes::months, 24)), {0, 0, 3, 2}, 10);
  const auto other = anew.source->clone();
  for (int month = 0; month < 12; ++month) {
    CHECK(band(*kept.source, month) == band(*anew.source, month));
    CHECK(band(*kept.source, month) == band(*other, month));
    CHECK(band(*kept.source, month)[2] == Approx((month + 6) * 1.5 + 4));
  }
}

TEST_CASE("values that are not believed are taken out before the mean") {
  const std::vector<TimeStep> steps{{2001, 0, 1, 1}, {2001, 0, 2, 2}};
  StepSource source = one(steps_of(steps, [](int step, int) { return step == 0 ? -9999.0 : 12.0; }),
                          use(YearNodes::months, 2));
  source.screen = Screen{{}, -5.0, 40.0, "degC"};
  auto made = prepare_steps(std::move(source), {0, 0, 3, 2});
  CHECK(band(*made.source, 0)[0] == 12.0F);
  CHECK(made.stats.outside == 6);
  CHECK(made.stats.data == 12);
}

TEST_CASE("between steps days run straight, over the new year too") {
  std::vector<TimeStep> steps;
  for (int day = 5; day <= 365; day += 8) {
    steps.push_back({2019, 0, day, day});
  }
  // pixel 1 lacks the second step
  const auto value = [&](int step, int pixel) {
    const int day = steps[static_cast<std::size_t>(step)].day;
    return pixel == 1 && step == 1 ? kNan : static_cast<float>(day);
  };
  const int count = static_cast<int>(steps.size());
  auto made =
      prepare_steps(one(steps_of(steps, value), use(YearNodes::days, count, true)), {0, 0, 3, 2});
  CHECK(made.source->info().bands == 365);
  CHECK(band(*made.source, 4)[0] == 5.0F);
  CHECK(band(*made.source, 99)[0] == 100.0F);
  CHECK(band(*made.source, 12)[1] == 13.0F);  // straight from day 5 to day 21
  // the last step lies on day 365, the first comes five days later
  CHECK(band(*made.source, 364)[0] == 365.0F);
  CHECK(band(*made.source, 0)[0] == Approx(365.0 - 360.0 / 5.0));
}

TEST_CASE("a gap of more than a month stays unknown") {
  std::vector<TimeStep> steps;
  for (int day = 1; day <= 365; ++day) {
    steps.push_back({2019, 0, day, day});
  }
  const auto value = [](int step, int pixel) {
    return pixel == 0 && step >= 100 && step < 140 ? kNan : 1.0F;
  };
  auto made =
      prepare_steps(one(steps_of(steps, value), use(YearNodes::days, 365, true)), {0, 0, 3, 2});
  CHECK(std::isnan(band(*made.source, 120)[0]));
  CHECK(band(*made.source, 120)[1] == 1.0F);
  CHECK(band(*made.source, 99)[0] == 1.0F);
}

TEST_CASE("the mean by day of several years, 28 and 29 February as one") {
  NodeSums sums(YearNodes::days, false, 1);
  const auto add = [&](int year, int day, double value) {
    sums.add({year, 0, day, 0}, std::vector<double>{value});
  };
  for (int year = 2019; year <= 2020; ++year) {
    for (int day = 1; day <= 365; ++day) {
      add(year, day, year == 2019 ? 10.0 : 20.0);
      if (year == 2020 && day == 59) {
        add(year, day, 40.0);
      }
    }
  }
  const auto days = sums.finish();
  CHECK(days[0] == 15.0F);
  CHECK(days[58] == 20.0F);  // 10, and the mean of 20 and 40
}

TEST_CASE("the speed is the mean of speeds, and the axis is that of the tide") {
  std::vector<TimeStep> steps(48, TimeStep{2019, 0, 1, 1});
  // to and fro along 30 degrees from north, with a steady drift to the east on top
  constexpr double kAngle = 30.0 * std::numbers::pi / 180.0;
  const auto tide = [](int step) { return std::cos(step * std::numbers::pi / 6.0); };
  StepSource source =
      one(steps_of(steps, [&](int s, int) { return 0.1 + tide(s) * std::sin(kAngle); }),
          use(YearNodes::months, 48));
  source.parts.push_back(steps_of(steps, [&](int s, int) { return tide(s) * std::cos(kAngle); }));
  auto made = prepare_steps(std::move(source), {0, 0, 3, 2});
  REQUIRE(made.source->info().bands == 14);
  double speed = 0.0;
  for (int s = 0; s < 48; ++s) {
    speed += std::hypot(0.1 + tide(s) * std::sin(kAngle), tide(s) * std::cos(kAngle)) / 48;
  }
  CHECK(band(*made.source, 0)[0] == Approx(speed).epsilon(1e-5));
  const double twice = std::atan2(band(*made.source, 13)[0], band(*made.source, 12)[0]);
  CHECK(90.0 - twice / 2.0 * 180.0 / std::numbers::pi == Approx(30.0).margin(1e-4));
}

TEST_CASE("a current that does not vary has no axis") {
  AxisSums sums(1);
  for (int i = 0; i < 10; ++i) {
    sums.add(0, 0.3, 0.1);
  }
  CHECK(std::isnan(sums.finish()[0]));
}
