// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace tidelot {

/// What a terminal can show.
enum class Glyphs { utf8, ascii };

/// A series as one line of block characters, lowest to highest of its own range; with ascii the
/// eight steps are ". : - = + * # @". Longer series are averaged into `columns` parts, shorter ones
/// keep one character a value. A flat series stands at the lowest step; NaN is a blank.
[[nodiscard]] std::string sparkline(std::span<const double> values, std::size_t columns,
                                    Glyphs glyphs);

/// What the environment's locale names say (as in POSIX: LC_ALL, else LC_CTYPE, else LANG; empty
/// counts as not set). Only the text is looked at; no locale is set.
[[nodiscard]] Glyphs glyphs_of(std::string_view lc_all, std::string_view lc_ctype,
                               std::string_view lang);

}  // namespace tidelot
