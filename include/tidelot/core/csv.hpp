// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace tidelot {

/// One record of a table. number counts as a spreadsheet does: the header is 1, blank lines count.
struct CsvRow {
  std::size_t number = 0;
  std::vector<std::string> cells;  ///< as many as the header has; blanks at their ends taken off
};

struct CsvTable {
  char separator = ',';  ///< ',', ';' or a tab
  std::vector<std::string> header;
  std::vector<CsvRow> rows;
};

/// Reads a table by RFC 4180: quotes around cells, doubled inside; a header; lines end in LF or
/// CRLF; UTF-8 with or without a byte order mark. The separator is whichever of comma, semicolon
/// and tab the header holds most often. Blank lines are passed over. Throws std::invalid_argument
/// "row 7: ..." for a cell too many or too few, a quote out of place or never closed, a bare
/// carriage return, a zero byte, text that is not UTF-8, and "..." for a table without a header.
[[nodiscard]] CsvTable parse_csv(std::string_view text);

/// A whole cell as a finite number with the decimal mark '.' or ','; empty when it is not one.
[[nodiscard]] std::optional<double> csv_number(std::string_view cell, char decimal = '.');

}  // namespace tidelot
