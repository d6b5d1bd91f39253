// SPDX-License-Identifier: Apache-2.0
// Sums over steps of time, for many pixels at once.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "step_use.hpp"

namespace tidelot {

/// Takes the steps of some pixels in the order of time, NaN where there is no data.
class NodeSums {
 public:
  NodeSums(YearNodes nodes, bool closed, std::size_t pixels);
  void add(const TimeStep& step, std::span<const double> values);
  /// The means, node by node; nothing may be added after.
  [[nodiscard]] std::vector<float> finish();

 private:
  void end_group();
  void end_month(std::size_t pixel, double mean);
  void end_day(std::size_t pixel, double mean, std::int64_t day);
  void put(std::size_t node, std::size_t pixel, double value);

  YearNodes nodes_;
  bool closed_;
  std::size_t pixels_;
  TimeStep group_;  ///< the month or day that is being added up
  bool begun_ = false;
  std::vector<double> sum_;
  std::vector<int> count_;
  std::vector<double> total_;  ///< node by node
  std::vector<int> years_;
  // Of days: the last one with a value, and the first.
  std::vector<double> last_, first_;
  std::vector<std::int64_t> last_day_, first_day_;
};

/// The spread of pairs of values of some pixels.
class AxisSums {
 public:
  explicit AxisSums(std::size_t pixels) : sums_(pixels) {}
  void add(std::size_t pixel, double east, double north);
  /// Cosines of twice the axis's angle, then sines, NaN where there is none.
  [[nodiscard]] std::vector<float> finish() const;

 private:
  struct Sums {
    int count = 0;
    double east = 0.0, north = 0.0;
    double east_east = 0.0, north_north = 0.0, east_north = 0.0;
  };
  std::vector<Sums> sums_;
};

}  // namespace tidelot
