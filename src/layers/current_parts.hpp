// SPDX-License-Identifier: Apache-2.0
// A current given by its eastward and northward parts.
#pragma once

#include <memory>
#include <string>

#include "raster_field.hpp"

namespace tidelot {

struct NorthwardPart {
  std::unique_ptr<RasterSource> source;
  bool says_direction = false;  ///< the parts run to true east and north
};

/// Opens the second part of a current, which must be the twin of the first, and warns where the two
/// say nothing of the direction. Throws Error(input).
[[nodiscard]] NorthwardPart open_northward(const RasterWish& wish, const FileRef& file,
                                           const RasterInfo& east, Opening& opening);

/// Why the two parts of a current say nothing of its direction from true north, "" where they do.
/// east, north: what their files say. Throws Error(input), naming the key, where they look swapped.
[[nodiscard]] std::string trouble_with_parts(const std::string& key, const std::string& written,
                                             const RasterInfo& east, const RasterInfo& north);

}  // namespace tidelot
