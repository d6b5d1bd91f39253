// SPDX-License-Identifier: Apache-2.0
// Which bands of a raster make the values of a year: what is done with its steps of time and its
// levels of depth.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "tidelot/layers/raster_source.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// How many values a year has in every cell.
enum class YearNodes { one, months, days };
[[nodiscard]] int count_of(YearNodes nodes);

/// The two bands around the wanted depth within a step: value = upper + weight (lower - upper).
struct LevelPick {
  int upper = 0;
  int lower = 0;
  double weight = 0.0;
};

/// What is done with the bands.
struct StepUse {
  YearNodes nodes = YearNodes::one;
  LevelPick level;
  std::vector<int> order;  ///< steps in the order of time, those left out taken away
  bool closed = false;     ///< days: the last step is followed by the first
  std::vector<int> plain;  ///< the band of each node, where nothing has to be averaged
  std::string said;        ///< "1993 to 2019, 27 years: ..."; "" where there is nothing to say
  std::vector<std::string> warnings;
};

/// What the plan wants of them.
struct StepWish {
  std::string key;      ///< for messages
  std::string written;  ///< the file
  WaterPlan::Steps steps = WaterPlan::Steps::automatic;
  double line_depth_m = 0.0;
};

/// Without a time axis: twelve steps are January to December, one is the whole year. With one, a
/// step shorter than a month of a mean year, or of a series of a year at most, is used day by day;
/// everything else becomes twelve monthly means. Throws Error(input) where a month has no step and
/// for any other number of steps without an axis.
[[nodiscard]] StepUse use_of_steps(const RasterInfo& info, const StepWish& wish);

/// One value for the whole year: the first step at the wanted depth.
[[nodiscard]] StepUse use_of_one_step(const RasterInfo& info, const StepWish& wish);

/// Longest time between two steps that follow each other, "31 days"; "" for fewer than two steps.
[[nodiscard]] std::string longest_gap(const RasterInfo& info);

/// A day counted through years of 365 days.
[[nodiscard]] inline std::int64_t common_number(const TimeStep& step) {
  return std::int64_t{step.year} * kDaysPerYear + step.day;
}

/// Longest time between two steps across which values run straight, in days.
inline constexpr int kLongestGap = 31;

}  // namespace tidelot
