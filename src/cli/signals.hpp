// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <atomic>

namespace tidelot::cli {

/// From now on SIGHUP, SIGINT and SIGTERM only set the flag; a second one ends the program at once.
/// Returns the flag: 0, or the number of the signal.
[[nodiscard]] const std::atomic<int>& catch_signals();

}  // namespace tidelot::cli
