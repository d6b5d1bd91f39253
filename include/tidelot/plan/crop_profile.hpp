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

/// A profile from TOML text; where names it in messages. Throws Error(plan) with line and column.
[[nodiscard]] Crop parse_crop(std::string_view text, const std::string& where);

}  // namespace tidelot
