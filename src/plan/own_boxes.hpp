// SPDX-License-Identifier: Apache-2.0
// [sites] own_corners: boxes of the user's own.
#pragma once

#include <toml++/toml.h>

#include <optional>
#include <string>
#include <vector>

#include "plan/value_check.hpp"

namespace tidelot::planfile {

/// The boxes in a value: [[lon, lat], ...] is one, a list of such is several. Empty where it is
/// neither.
[[nodiscard]] std::vector<const toml::array*> boxes_in(const toml::node& value);

/// check_value for the kind boxes: four corners each, in order round a convex box that is no
/// sliver.
[[nodiscard]] std::optional<Problem> check_boxes(const std::string& name, const toml::node& value);

}  // namespace tidelot::planfile
