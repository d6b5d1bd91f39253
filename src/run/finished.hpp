// SPDX-License-Identifier: Apache-2.0
// Finished runs on disk, and making those that are not there.
#pragma once

#include <filesystem>
#include <string>

#include "tidelot/report/bay.hpp"
#include "tidelot/run.hpp"

namespace tidelot::run {

struct FinishedRun {
  std::filesystem::path folder;
  Bay bay;
  double grid_scale = 1.0;  ///< grid length over ground length
  bool reused = false;
};

/// What the folder's run.json keeps. Error(input) where it cannot be read.
[[nodiscard]] FinishedRun read_finished(const std::filesystem::path& folder);

/// The output of the same plan, inputs and version in `folder` or beside the plan; else it is run
/// into `folder`. Throws as scout.
[[nodiscard]] FinishedRun finished(const Plan& plan, const std::filesystem::path& folder,
                                   const RunOptions& options);

/// "Heron Bight, summer" -> "heron-bight-summer": a folder's name.
[[nodiscard]] std::string folder_name(const std::string& title);

}  // namespace tidelot::run
