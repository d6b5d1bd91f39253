// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "gdal_support.hpp"
#include "input_file.hpp"

namespace tidelot::geoio {

/// The system of a file's coordinates, and on whose word.
struct StatedReference {
  OGRSpatialReference reference;
  std::string basis;  ///< "" where the file states it all; else one line
};

/// The system that the file states (own), or the plan's crs where it states none; nothing where
/// neither does. A vertical part is taken off and said. Throws Error(input) where both state one
/// and they are not the same, Error(plan) where PROJ does not know the plan's.
[[nodiscard]] std::optional<StatedReference> stated_reference(const InputFile& input,
                                                              const OGRSpatialReference* own);

/// What to add to the message that none does: tables with a key for it can state it in the plan.
[[nodiscard]] std::string_view crs_key_hint(std::string_view key);

}  // namespace tidelot::geoio
