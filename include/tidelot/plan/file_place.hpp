// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <string>

#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// Does the path lie in the folder, or is it the folder? By their words alone: ".." is worked out,
/// links are not followed.
[[nodiscard]] bool lies_in(const std::filesystem::path& path, const std::filesystem::path& folder);

/// What is wrong where `really`, a path whose links were followed, lies outside of the folder that
/// the file may not leave; "" where nothing is. One sentence without the file's name.
[[nodiscard]] std::string outside_fault(const FileRef& file, const std::filesystem::path& really);

}  // namespace tidelot
