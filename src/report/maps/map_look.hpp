// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "report/maps/colour.hpp"
#include "tidelot/report/report.hpp"

/// How the GeoTIFFs look in other programs: the colours and ranges of the page, without its
/// hatches, which no open standard gives to a raster.
namespace tidelot::page {

/// A value and its colour; between two steps a quantity's colours are joined linearly.
struct LookStep {
  double value = 0.0;
  Rgb colour;
  std::string words;
  bool clear = false;  ///< nothing is painted
};

struct MapLook {
  std::string map;    ///< "yield": of maps/yield.tif, its first band
  std::string title;  ///< "Yield"
  std::string about;  ///< what it is, a sentence or two
  bool codes = false;
  std::vector<LookStep> steps;  ///< rising; of a map of codes one a code
};

/// Of every map that the run writes.
[[nodiscard]] std::vector<MapLook> map_looks(const ReportData& data);

}  // namespace tidelot::page
