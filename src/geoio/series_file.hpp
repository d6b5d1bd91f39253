// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "tidelot/layers/series.hpp"

namespace tidelot::geoio {

/// SeriesReader::read_series.
[[nodiscard]] TimeSeries read_series_file(const FileRef& file, const std::string& key,
                                          std::span<const std::string_view> standard_names);

}  // namespace tidelot::geoio
