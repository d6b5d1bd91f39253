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
};

/// A style for every map that the run writes and one for the layers of sites.gpkg, in the colours
/// and over the ranges of the report.
[[nodiscard]] std::vector<StyleFile> style_files(const ReportData& data);

/// The colours of a map of codes ("reason.tif"), index = code, to be embedded in it; empty for a
/// map of quantities. They are those of the report.
[[nodiscard]] std::vector<MapColour> code_colours(const ReportData& data, std::string_view map);

}  // namespace tidelot
