// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>

#include "tidelot/core/error.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot::planfile {

/// No plan and no crop profile needs more; a larger file is something else, named by mistake.
inline constexpr std::size_t kMaxBytes = 1'000'000;

/// No line needs more. A dotted key of a hundred thousand parts, which must stand on one line,
/// would nest as many tables, and taking those apart would exhaust the stack.
inline constexpr std::size_t kMaxLineBytes = 8000;

/// The text of a small plain file. shown names it in messages, fault is what a failure counts as.
/// Folders, pipes, devices and files over kMaxBytes are refused before they are opened.
[[nodiscard]] std::string read_text_file(const std::filesystem::path& path,
                                         const std::string& shown, Fault fault);

/// The same of a file that the plan names: not where a link leads to what the plan may not name.
[[nodiscard]] std::string read_text_file(const FileRef& file, const std::string& shown,
                                         Fault fault);

/// Does the name begin with http:// or https://?
[[nodiscard]] bool is_address(std::string_view name);

/// Why a name in the plan is not that of a plain file ("" where it is one): networks, archives and
/// drivers have no place in a plan, which must read the same files everywhere.
[[nodiscard]] std::string plain_file_fault(std::string_view name);

}  // namespace tidelot::planfile
