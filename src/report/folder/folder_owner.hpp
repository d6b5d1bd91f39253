// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "tidelot/report/output_folder.hpp"

namespace tidelot {

inline constexpr std::string_view kLockName = "lock";
inline constexpr std::string_view kUnfinished = "unfinished";

/// Throws Error(output) when `folder` is a file, when another run is writing to it, or when it
/// holds something and nothing says that it is tidelot's; parts of a run are nothing.
void check_folder(const std::filesystem::path& folder);

/// Removes the work folders of runs that died. Where one died in the middle of moving its files
/// into place, the files it had moved go and the earlier run's come back. work: of the run that
/// sweeps, with its lock held; it stays, and with Unfinished::take gets what one of them left
/// unfinished. Error(output) when another run began meanwhile.
void sweep_dead_runs(const std::filesystem::path& folder, const std::filesystem::path& work,
                     Unfinished left);

/// Parts of a run in the folder, finished or not, by name; none where there is no folder.
[[nodiscard]] std::vector<std::filesystem::path> part_files(const std::filesystem::path& folder);

/// Names of all that a run may leave, and of their side-cars, run.json first.
[[nodiscard]] std::vector<std::string> own_names();

/// Those of them that are in the folder.
[[nodiscard]] std::vector<std::string> own_files(const std::filesystem::path& folder);

}  // namespace tidelot
