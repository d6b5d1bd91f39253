// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tidelot::cli {

/// Writes to stdout; Error(output) when it cannot be written (a full disk, for one).
void print(std::string_view text);
/// Flushes stdout, with the same check.
void flush();

/// Rows of cells with their columns lined up, two blanks between; the first row is the heading.
/// width: the last column is broken to it; 0: it is not.
[[nodiscard]] std::string table(const std::vector<std::vector<std::string>>& rows,
                                std::size_t width = 0);

/// Text broken at blanks to a width, each line after the first set in by `indent`. begin: the
/// column in which the first line begins.
[[nodiscard]] std::string wrapped(std::string_view text, std::size_t width, std::size_t indent,
                                  std::size_t begin = 0);

}  // namespace tidelot::cli
