// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string_view>

namespace tidelot {

/// The program's version, from the one place that states it (CMakeLists.txt).
[[nodiscard]] std::string_view version();

}  // namespace tidelot
