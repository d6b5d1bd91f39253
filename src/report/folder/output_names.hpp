// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <string_view>

namespace tidelot {

inline constexpr std::string_view kRunJson = "run.json";
/// In the folder of a comparison: the runs of its plans.
inline constexpr std::string_view kBays = "bays";
inline constexpr std::string_view kWorkPrefix = ".tidelot-work-";
/// Files that hold a part of a run each, until they are joined.
inline constexpr std::string_view kPartPrefix = ".tidelot-part-";

/// Every file that a run can leave in its folder. Nothing else in it is ever removed.
inline constexpr std::array<std::string_view, 36> kOutputNames{"maps/suitability.tif",
                                                               "maps/yield.tif",
                                                               "maps/nitrogen.tif",
                                                               "maps/season.tif",
                                                               "maps/depth_low_water.tif",
                                                               "maps/coverage.tif",
                                                               "maps/confidence.tif",
                                                               "maps/waves.tif",
                                                               "maps/depth_source.tif",
                                                               "maps/closed.tif",
                                                               "maps/reason.tif",
                                                               "maps/suitability.sld",
                                                               "maps/yield.sld",
                                                               "maps/nitrogen.sld",
                                                               "maps/season.sld",
                                                               "maps/depth_low_water.sld",
                                                               "maps/coverage.sld",
                                                               "maps/confidence.sld",
                                                               "maps/waves.sld",
                                                               "maps/depth_source.sld",
                                                               "maps/closed.sld",
                                                               "maps/reason.sld",
                                                               "sites.sld",
                                                               "sites.gpkg",
                                                               "sites.geojson",
                                                               "sites.csv",
                                                               "load.csv",
                                                               "sites.gpx",
                                                               "report.html",
                                                               "field_sheet.html",
                                                               "field_readings.csv",
                                                               "sheets.html",
                                                               "compare.html",
                                                               "compare.csv",
                                                               "compare.json",
                                                               kRunJson};

/// What other programs leave beside a GeoTIFF or GeoPackage: overviews and statistics of the file
/// that was there before would be taken for those of the new one.
inline constexpr std::array<std::string_view, 5> kSideCars{".aux.xml", ".ovr", ".msk", "-wal",
                                                           "-shm"};

}  // namespace tidelot
