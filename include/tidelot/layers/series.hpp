// SPDX-License-Identifier: Apache-2.0
// Values along a time axis at one place, as a NetCDF file holds them.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "tidelot/plan/plan.hpp"

namespace tidelot {

struct TimeSeries {
  struct Variable {
    std::string standard_name;   ///< of CF
    std::string unit;            ///< "" where the file does not say
    std::vector<double> values;  ///< one a step, NaN missing
  };
  std::vector<double> times;
  std::string time_unit;  ///< "hours since 2001-01-01"
  std::string calendar;   ///< "" where the file does not say
  std::vector<Variable> variables;

  [[nodiscard]] const Variable* find(std::string_view standard_name) const;
};

/// Reads them. geoio's opener is one as well; tests bring their own.
class SeriesReader {
 public:
  virtual ~SeriesReader() = default;
  /// The variables that have one of the standard names, all along one time axis. Throws
  /// Error(input) where the file is no NetCDF file, has none of them, or has them at more than one
  /// place.
  [[nodiscard]] virtual TimeSeries read_series(
      const FileRef& file, const std::string& key,
      std::span<const std::string_view> standard_names) = 0;
};

}  // namespace tidelot
