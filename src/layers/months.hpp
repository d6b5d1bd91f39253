// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <string>
#include <vector>

#include "tidelot/core/calendar.hpp"
#include "tidelot/layers/raster_source.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// The band of each month.
struct MonthBands {
  std::array<int, kMonths> band{};
  bool steady = false;  ///< one band for the whole year
};

/// Twelve bands, one a month by the time axis or January to December where there is none; or one
/// band for the whole year. Throws Error(input) for anything else, saying what there is.
[[nodiscard]] MonthBands months_of(const RasterInfo& info, const std::string& key,
                                   const std::string& written);

/// The file, or the twelve files where its name holds {month}: "01" to "12".
[[nodiscard]] std::vector<FileRef> month_files(const FileRef& file);

}  // namespace tidelot
