// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// The file, or the twelve files where its name holds {month}: "01" to "12".
[[nodiscard]] std::vector<FileRef> month_files(const FileRef& file);

}  // namespace tidelot
