// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <toml++/toml.h>

#include <optional>
#include <string>

#include "plan/key_table.hpp"

namespace tidelot::planfile {

/// What is wrong in a plan, and where.
struct Problem {
  toml::source_position at;
  std::string text;
};

/// Is the value of a key what the list of keys says? name is its dotted name. Tables are not looked
/// into (key_check does that).
[[nodiscard]] std::optional<Problem> check_value(const Key& key, const std::string& name,
                                                 const toml::node& value);

}  // namespace tidelot::planfile
