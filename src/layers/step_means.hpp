// SPDX-License-Identifier: Apache-2.0
// The values of a year from any number of steps, a window at a time.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "prepared_raster.hpp"
#include "step_use.hpp"
#include "tidelot/layers/raster_source.hpp"

namespace tidelot {

/// What the steps are made of.
struct StepSource {
  /// One raster, or two of the same pixels and steps: the eastward and northward parts of a
  /// current, of which a step's value is the speed.
  std::vector<std::unique_ptr<RasterSource>> parts;
  StepUse use;
  std::optional<Screen> screen;  ///< of every value (of two parts, of the speed) before any mean

  [[nodiscard]] StepSource clone() const;
};

/// Reads the window once from the first step to the last, keeping sums alone in memory, and gives a
/// raster of count_of(use.nodes) bands. Two parts give two bands more: the cosine and the sine of
/// twice the angle, counted from east to north, of the axis along which the current varies most
/// (the first principal axis of all steps); NaN where it has none.
///
/// Months: the mean of a month's steps in each year, then of its years. Days: a day's steps in each
/// year; straight in time from one day with steps to the next, at most kLongestGap apart; then the
/// mean of the years. Steps without data are left out, pixel by pixel. Of two levels the one with
/// data stands where the other has none.
///
/// What would take more than memory_values is worked out anew for each part that is read.
[[nodiscard]] PreparedRaster prepare_steps(StepSource source, const Window& window,
                                           std::size_t memory_values = kMemoryValues);

}  // namespace tidelot
