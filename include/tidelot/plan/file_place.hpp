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

/// The same of a path whose links are yet to be followed: the file itself, or one that is opened
/// with it. "" for one that is not there.
[[nodiscard]] std::string link_fault(const FileRef& file, const std::filesystem::path& path);

}  // namespace tidelot
