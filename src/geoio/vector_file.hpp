// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "tidelot/layers/opener.hpp"

namespace tidelot::geoio {

/// Opener::read_features.
[[nodiscard]] FeatureLayer read_feature_file(const FileRef& file, const std::string& where,
                                             const std::string& key, const std::string& crs,
                                             const LonLatBox& box);

}  // namespace tidelot::geoio
