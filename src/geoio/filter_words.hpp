// SPDX-License-Identifier: Apache-2.0
// The words of a filter on attributes (the plan's where), as far as one must know them to say what
// is wrong with it.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace tidelot::geoio {

/// Does the filter hold the word (in small letters) where it is not quoted? Any letter's size
/// counts.
[[nodiscard]] bool holds_word_outside_quotes(std::string_view filter, std::string_view word);

/// The first name in the filter that is no field, keyword, function or number; "" where all are
/// known. Names are compared without regard to the size of letters, as SQL does.
[[nodiscard]] std::string unknown_field(std::string_view filter,
                                        std::span<const std::string> fields);

}  // namespace tidelot::geoio
