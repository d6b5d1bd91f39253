// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

namespace tidelot::page {

/// cautions(), each in a few words, for the foot of a sheet; same order, same number.
[[nodiscard]] const std::vector<std::string>& short_cautions();

}  // namespace tidelot::page
