// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string_view>

#include "tidelot/plan/plan.hpp"

namespace tidelot::planfile {

[[nodiscard]] bool in_bounds(const AreaPlan& area, LonLat at);

/// Of a place outside the bounds that a common slip took there, the slip; else "".
[[nodiscard]] std::string_view likely_slip(const AreaPlan& area, LonLat at);

}  // namespace tidelot::planfile
