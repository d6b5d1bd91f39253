// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "tidelot/report/report.hpp"

namespace tidelot {

/// How an output looks in other programs: a Styled Layer Descriptor 1.0.0 (OGC 02-070) beside it.
struct StyleFile {
  std::string name;  ///< "maps/yield.sld"
  std::string sld;
  /// Of a map of codes, index = code, to be embedded in it; else empty.
  std::vector<MapColour> colours;
};

/// A style for every map that the run writes and one for the layers of sites.gpkg, in the colours
/// and over the ranges of the report.
[[nodiscard]] std::vector<StyleFile> style_files(const ReportData& data);

/// The style of one map ("reason.tif") among them.
[[nodiscard]] const StyleFile& style_of(const std::vector<StyleFile>& styles, std::string_view map);

}  // namespace tidelot
