// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "input_file.hpp"
#include "tidelot/layers/opener.hpp"
#include "value_column.hpp"

namespace tidelot::geoio {

/// Opener::read_features.
[[nodiscard]] FeatureLayer read_feature_file(const FileRef& file, const std::string& where,
                                             const std::string& key, const std::string& crs,
                                             const LonLatBox& box, const FeatureColumns& columns,
                                             bool allow_ballpark);

/// Features and what their values are.
struct ValuedFeatures {
  FeatureLayer layer;
  ValueColumn column;
};

/// All features that touch the box, each with its value; the points of a multipoint are told one by
/// one. Throws Error(input) as value_column does, too.
[[nodiscard]] ValuedFeatures read_valued_features(const InputFile& input, const std::string& crs,
                                                  const LonLatBox& box);

}  // namespace tidelot::geoio
