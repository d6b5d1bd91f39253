// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <toml++/toml.h>

#include <span>
#include <string>
#include <string_view>

namespace tidelot {

/// The TOML of a text. Throws Error(plan) with line and column, also where it is not UTF-8 or a
/// line is longer than planfile::kMaxLineBytes.
[[nodiscard]] toml::table parse_toml(std::string_view text, const std::string& where);

/// "where:line:column: line".
[[nodiscard]] std::string at_place(const std::string& where, const toml::source_region& region,
                                   const std::string& line);

/// Throws Error(plan) with that line.
[[noreturn]] void fail_at(const std::string& where, const toml::source_region& region,
                          const std::string& line);

/// Throws Error(plan) at the first key of the table that is not among the known ones, naming the
/// nearest. prefix ("constants.") stands before the key in the message.
void refuse_unknown_keys(const toml::table& table, std::span<const std::string> known,
                         const std::string& where, std::string_view prefix);

}  // namespace tidelot
