// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "tidelot/core/crop.hpp"

namespace tidelot {

/// Names of the built-in profiles, in alphabetical order.
[[nodiscard]] std::vector<std::string> built_in_crops();

/// A built-in profile. Throws Error(plan) naming the nearest known one.
[[nodiscard]] Crop built_in_crop(std::string_view name);

/// What makes a profile unusable, in one line that begins with the constant's name: a constant that
/// is missing, not finite, out of its own range or at odds with another one. Empty when it is
/// sound. For a profile whose constants were changed after it was read.
[[nodiscard]] std::string crop_fault(const Crop& crop);

/// A profile from TOML text; where names it in messages. Throws Error(plan) with line and column.
[[nodiscard]] Crop parse_crop(std::string_view text, const std::string& where);

}  // namespace tidelot
