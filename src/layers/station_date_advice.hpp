// SPDX-License-Identifier: Apache-2.0
// What to do about a date that is not read.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tidelot {

/// The end of the sentence 'date "20/01/2023" is not a day as YYYY-MM-DD'. dates: the whole column.
/// Where its other dates tell the day from the month this is said, but the order is never guessed.
[[nodiscard]] std::string date_advice(std::string_view text, const std::vector<std::string>& dates);

}  // namespace tidelot
