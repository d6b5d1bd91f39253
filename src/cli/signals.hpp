// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <atomic>
#include <string_view>

namespace tidelot::cli {

/// From now on SIGHUP, SIGINT and SIGTERM only set the flag; a second one ends the program at once.
/// One that was switched off when the program began, as nohup does, stays so.
/// Returns the flag: 0, or the number of the signal.
[[nodiscard]] const std::atomic<int>& catch_signals();

/// The status of a program that a library ended.
inline constexpr int kGaveUp = 3;
/// From now on a library that calls abort() (PROJ does where it gets no memory) ends the program
/// with a line and that status; one that touches what is not there (PROJ does there, too) says so,
/// and ends it by the signal. The advice ends both lines. Call once.
void speak_before_abort(std::string_view advice);

}  // namespace tidelot::cli
