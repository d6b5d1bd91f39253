// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

std::string trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) {
    return "";
  }
  return std::string(text.substr(first, text.find_last_not_of(" \t") - first + 1));
}

/// Takes records off the front of a text, one at a time.
class Records {
 public:
  Records(std::string_view text, char separator) : text_(text), separator_(separator) {}

  [[nodiscard]] bool more() const { return at_ < text_.size(); }
  [[nodiscard]] std::size_t number() const { return number_; }

  std::vector<std::string> next() {
    ++number_;
    std::vector<std::string> cells;
    do {
      cells.push_back(cell());
    } while (take(separator_));
    if (more() && !take_line_end()) {
      fail(text_[at_] == '\r' ? "holds a bare carriage return; save the table with line ends LF or "
                                "CRLF"
           : text_[at_] == '\0'
               ? "holds a zero byte; save the table as UTF-8 text"
               : "has text after a closing quote; a quote inside a cell is doubled");
    }
    return cells;
  }

  [[noreturn]] void fail(const std::string& what) const {
    throw std::invalid_argument(fmt::format("row {}: {}", number_, what));
  }

 private:
  bool take(char wanted) {
    const bool here = more() && text_[at_] == wanted;
    at_ += here ? 1 : 0;
    return here;
  }

  bool take_line_end() {
    const std::size_t length = text_.substr(at_).starts_with("\r\n") ? 2 : 1;
    const bool here = length == 2 || text_[at_] == '\n';
    at_ += here ? length : 0;
    return here;
  }

  std::string cell() {
    std::string text = take('"') ? quoted() : plain();
    if (!is_utf8(text)) {
      fail("is not UTF-8 text; save the table as UTF-8");
    }
    return text;
  }

  std::string quoted() {
    std::string out;
    while (true) {
      const std::size_t end = text_.find('"', at_);
      if (end == std::string_view::npos) {
        fail("opens a quote that is never closed");
      }
      out += text_.substr(at_, end - at_);
      at_ = end + 1;
      if (!take('"')) {
        return trimmed(out);
      }
      out += '"';
    }
  }

  std::string plain() {
    const std::size_t first = at_;
    while (more() && text_[at_] != separator_ && text_[at_] != '\n' && text_[at_] != '\r' &&
           text_[at_] != '\0') {
      if (text_[at_] == '"') {
        fail("has a quote inside a cell; put the whole cell in quotes and double the one inside");
      }
      ++at_;
    }
    return trimmed(text_.substr(first, at_ - first));
  }

  std::string_view text_;
  char separator_;
  std::size_t at_ = 0;
  std::size_t number_ = 0;
};

/// The commonest of the three in the header, quoted text left out; a comma where there is none.
char separator_of(std::string_view text) {
  constexpr std::string_view kSeparators = ",;\t";
  std::size_t counts[kSeparators.size()] = {};
  bool quoted = false;
  for (const char c : text.substr(0, text.find('\n'))) {
    quoted = c == '"' ? !quoted : quoted;
    const std::size_t which = quoted ? std::string_view::npos : kSeparators.find(c);
    if (which != std::string_view::npos) {
      ++counts[which];
    }
  }
  return kSeparators[static_cast<std::size_t>(std::max_element(counts, counts + 3) - counts)];
}

bool is_blank(const std::vector<std::string>& cells) {
  return cells.size() == 1 && cells[0].empty();
}

std::string_view without_mark(std::string_view text) {
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF")) {
    throw std::invalid_argument("is UTF-16 text; save the table as UTF-8");
  }
  return text.starts_with("\xEF\xBB\xBF") ? text.substr(3) : text;
}

}  // namespace

CsvTable parse_csv(std::string_view text) {
  text = without_mark(text);
  CsvTable table;
  table.separator = separator_of(text);
  Records records(text, table.separator);
  while (records.more()) {
    std::vector<std::string> cells = records.next();
    if (is_blank(cells)) {
      continue;
    }
    if (table.header.empty()) {
      table.header = std::move(cells);
    } else if (cells.size() != table.header.size()) {
      records.fail(fmt::format("has {} cells, the header {}", cells.size(), table.header.size()));
    } else {
      table.rows.push_back({records.number(), std::move(cells)});
    }
  }
  if (table.header.empty()) {
    throw std::invalid_argument("is empty; the first line names the columns");
  }
  return table;
}

std::optional<double> csv_number(std::string_view cell, char decimal) {
  std::string text(cell);
  if (decimal == ',') {
    if (text.find('.') != std::string::npos) {
      return std::nullopt;
    }
    std::replace(text.begin(), text.end(), ',', '.');
  }
  const char* first = text.data() + (text.starts_with('+') ? 1 : 0);
  const char* const end = text.data() + text.size();
  double value = 0.0;
  const auto [stop, error] = std::from_chars(first, end, value);
  const bool sign_twice = text.starts_with("+-");
  const bool good = error == std::errc{} && stop == end && std::isfinite(value) && !sign_twice;
  return good ? std::optional(value) : std::nullopt;
}

}  // namespace tidelot
