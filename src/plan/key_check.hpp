// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <toml++/toml.h>

#include <string>
#include <string_view>

namespace tidelot::planfile {

/// Checks every key of a plan against the list of keys: unknown ones, promised ones, types and
/// ranges, and what is missing. Throws Error(plan) for what stands first in the file; what is
/// missing only when nothing that is there is wrong.
void check_keys(const toml::table& root, const std::string& where);

/// What messages call one of several tables (table_called): a rule by the name that it holds.
[[nodiscard]] std::string called_in(std::string_view tables, std::size_t index,
                                    const toml::table& table);

}  // namespace tidelot::planfile
