// SPDX-License-Identifier: Apache-2.0
// Finished runs on disk, and making those that are not there.
#pragma once

#include <filesystem>
#include <functional>
#include <nlohmann/json.hpp>
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

/// What a comparison finds besides the runs, under a name: taken from the folder's run.json where
/// it was found there from the same (`of`: the identities of the runs it rests on), else found and
/// kept there.
[[nodiscard]] nlohmann::ordered_json kept_in(const std::filesystem::path& folder,
                                             const std::string& name, const std::string& of,
                                             const std::function<nlohmann::ordered_json()>& find);

/// "Heron Bight, summer" -> "heron-bight-summer": a folder's name.
[[nodiscard]] std::string folder_name(const std::string& title);

}  // namespace tidelot::run
