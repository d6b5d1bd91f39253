// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <fmt/format.h>

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "tidelot/core/csv.hpp"

namespace tidelot {

/// Counts rows of a table by what happened to them, in the order in which that first happened.
class Tally {
 public:
  /// Always false, so that a test for a row can end with it.
  bool drop(const std::string& what, const CsvRow& row) {
    count(what + " left out", row);
    return false;
  }
  void keep(const std::string& what, const CsvRow& row) { count(what, row); }

  /// "12 rows of quality control left out (the first: row 7)"
  [[nodiscard]] std::vector<std::string> lines() const {
    std::vector<std::string> out;
    for (const Line& line : lines_) {
      out.push_back(fmt::format("{} row{} {} (the first: row {})", line.rows,
                                line.rows == 1 ? "" : "s", line.what, line.first));
    }
    return out;
  }

 private:
  struct Line {
    std::string what;
    std::size_t rows = 0;
    std::size_t first = 0;
  };
  void count(const std::string& what, const CsvRow& row) {
    for (Line& line : lines_) {
      if (line.what == what) {
        ++line.rows;
        return;
      }
    }
    lines_.push_back({what, 1, row.number});
  }
  std::vector<Line> lines_;
};

}  // namespace tidelot
