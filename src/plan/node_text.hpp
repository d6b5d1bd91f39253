// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <toml++/toml.h>

#include <optional>
#include <string>
#include <string_view>

namespace tidelot::planfile {

/// A text as a JSON string.
[[nodiscard]] std::string json_string(std::string_view text);

/// A value of the plan as JSON: texts, numbers, and arrays and tables of them.
[[nodiscard]] std::string json_of(const toml::node& node);

/// A value as a message shows it: short values in full, others by what they are ("a table").
[[nodiscard]] std::string shown(const toml::node& node);

/// The finite number of a node: integers are numbers, booleans are not. Empty for all else.
[[nodiscard]] std::optional<double> finite_number(const toml::node& node);

}  // namespace tidelot::planfile
