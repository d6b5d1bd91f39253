// SPDX-License-Identifier: Apache-2.0
#include "plan/toml_place.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "plan/plan_file.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

/// What is wrong with a line before it is read as TOML. No byte of a longer UTF-8 sequence is a
/// newline, so lines can be looked at one by one.
std::string_view line_fault(std::string_view line) {
  if (!is_utf8(line)) {
    return "not UTF-8 text; save the file as UTF-8";
  }
  return line.size() > planfile::kMaxLineBytes ? "the line is over 8000 bytes long; break it up"
                                               : "";
}

void check_lines(std::string_view text, const std::string& where) {
  for (toml::source_index line = 1; !text.empty(); ++line) {
    const std::size_t end = std::min(text.find('\n'), text.size() - 1) + 1;
    if (const std::string_view fault = line_fault(text.substr(0, end)); !fault.empty()) {
      const toml::source_position place{line, 1};
      fail_at(where, {place, place, nullptr}, std::string(fault));
    }
    text.remove_prefix(end);
  }
}

std::string_view line_of(std::string_view text, toml::source_index number) {
  for (toml::source_index line = 1; line < number && !text.empty(); ++line) {
    text.remove_prefix(std::min(text.find('\n'), text.size() - 1) + 1);
  }
  return text.substr(0, text.find('\n'));
}

std::size_t digits_at(std::string_view text) {
  return std::min(text.find_first_not_of("0123456789"), text.size());
}

/// The first value of a line that is a number with a decimal comma, "0,5"; "" where there is none.
/// In a list [0,5] is two numbers, and no fault.
std::string decimal_comma(std::string_view line) {
  for (std::size_t equals = line.find('='); equals != std::string_view::npos;
       equals = line.find('=', equals + 1)) {
    std::string_view value = line.substr(equals + 1);
    value.remove_prefix(std::min(value.find_first_not_of(" \t"), value.size()));
    const std::size_t sign = value.starts_with('-') || value.starts_with('+') ? 1 : 0;
    const std::size_t whole = digits_at(value.substr(sign));
    const std::string_view rest = value.substr(sign + whole);
    const std::size_t part = rest.starts_with(',') ? digits_at(rest.substr(1)) : 0;
    if (whole > 0 && part > 0) {
      return std::string(value.substr(0, sign + whole + 1 + part));
    }
  }
  return "";
}

/// What the parser says, or the slip behind it.
std::string toml_fault(std::string_view text, const toml::parse_error& fault) {
  const std::string number = decimal_comma(line_of(text, fault.source().begin.line));
  if (number.empty()) {
    return fmt::format("not valid TOML: {}", fault.description());
  }
  const std::size_t comma = number.find(',');
  std::string point = number;
  point[comma] = '.';
  const bool thousands = number.size() == comma + 4;  // "50,000" may be either
  return fmt::format("{}: numbers have a decimal point, not a comma; write {}{}", number, point,
                     thousands ? ", or " + std::string(number).erase(comma, 1) : "");
}

}  // namespace

toml::table parse_toml(std::string_view text, const std::string& where) try {
  check_lines(text, where);
  return toml::parse(text, where);
} catch (const toml::parse_error& fault) {
  fail_at(where, fault.source(), toml_fault(text, fault));
}

std::string at_place(const std::string& where, const toml::source_region& region,
                     const std::string& line) {
  return fmt::format("{}:{}:{}: {}", where, region.begin.line, region.begin.column, line);
}

void fail_at(const std::string& where, const toml::source_region& region, const std::string& line) {
  throw Error(Fault::plan, at_place(where, region, line));
}

void refuse_unknown_keys(const toml::table& table, std::span<const std::string> known,
                         const std::string& where, std::string_view prefix) {
  for (const auto& [key, node] : table) {
    const std::string name(key.str());
    if (std::find(known.begin(), known.end(), name) != known.end()) {
      continue;
    }
    const std::string near = nearest_word(name, known);
    fail_at(where, key.source(),
            fmt::format("{}{}: unknown key; {}", prefix, name,
                        near.empty() ? "remove it" : fmt::format("did you mean '{}'?", near)));
  }
}

}  // namespace tidelot
