// SPDX-License-Identifier: Apache-2.0
// Would a run give what an earlier one gave?
#pragma once

#include <filesystem>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "run/resume/digest.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot::run {

/// The file and what stands beside it under the same stem, by name: the parts of a Shapefile, the
/// updates of a chart.
[[nodiscard]] std::vector<std::filesystem::path> with_companions(const std::filesystem::path& file);

/// What a run rests on.
struct Identity {
  std::string sha256;
  std::vector<std::pair<FileRef, Digest>> inputs;  ///< each file by itself, in the order given
};

/// SHA-256 over the program's version, every key and crop constant in force, and the bytes of the
/// named files with their companions. Runs of one identity leave the same bytes. Error(input) where
/// a file cannot be read.
[[nodiscard]] Identity identity_of(const Plan& plan, std::span<const FileRef> files);

/// The same of the files that the folder's run.json names; "" where it names none, or one is gone.
[[nodiscard]] std::string identity_now(const Plan& plan, const std::filesystem::path& folder);
/// What the folder's run.json says it was; "" where there is none.
[[nodiscard]] std::string identity_kept(const std::filesystem::path& folder);

}  // namespace tidelot::run
