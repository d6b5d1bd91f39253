// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

namespace tidelot::calibration {

[[nodiscard]] std::string alga_table();
[[nodiscard]] std::string kelp_table();

}  // namespace tidelot::calibration
