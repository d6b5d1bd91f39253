// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "plan/value_check.hpp"

namespace tidelot::planfile {

/// check_value for the kinds whose values are arrays: twelve, bounds, lon_lat, curve,
/// judgements, months.
[[nodiscard]] std::optional<Problem> check_array(const Key& key, const std::string& name,
                                                 const toml::node& value);

}  // namespace tidelot::planfile
