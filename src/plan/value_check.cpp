// SPDX-License-Identifier: Apache-2.0
#include "plan/value_check.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "plan/array_check.hpp"
#include "plan/node_text.hpp"
#include "plan/own_boxes.hpp"
#include "plan/plan_file.hpp"
#include "tidelot/core/calendar.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::planfile {
namespace {

using Checked = std::optional<Problem>;

/// "name must be expected, not <value>".
Problem not_what_is_expected(const std::string& name, const toml::node& value,
                             const std::string& expected, const std::string& hint = "") {
  return {value.source().begin,
          fmt::format("{} must be {}, not {}{}", name, expected, shown(value), hint)};
}

std::string expected_number(const Key& key) {
  const std::string kind = key.kind == Kind::whole ? "a whole number" : "a number";
  if (!std::isfinite(key.low)) {
    return kind;
  }
  return fmt::format("{} from {} to {}", kind, shortest(key.low), shortest(key.high));
}

/// C0, DEL, C1, and the separators of lines and paragraphs.
bool steers(char32_t c) {
  return c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0x2028 || c == 0x2029;
}

bool holds_control(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = std::max<std::size_t>(1, utf8_length(text));
    if (steers(code_point(text.substr(0, length)))) {
      return true;
    }
    text.remove_prefix(length);
  }
  return false;
}

Checked check_text(const Key& key, const std::string& name, const toml::node& value) {
  const auto* text = value.as_string();
  if (!text) {
    return not_what_is_expected(name, value, "text in quotes");
  }
  if (holds_control(**text)) {
    return Problem{value.source().begin, name +
                                             " holds a control character or a line break; "
                                             "write it on one line"};
  }
  const bool blank = (*text)->find_first_not_of(' ') == std::string::npos;
  if (blank && key.kind == Kind::text) {
    return Problem{value.source().begin, name + " is empty; fill it in or take it out"};
  }
  return std::nullopt;
}

Checked check_choice(const Key& key, const std::string& name, const toml::node& value) {
  const std::vector<std::string> words = split_words(key.words);
  const std::string word = value.value_or(std::string());
  if (value.is_string() && std::find(words.begin(), words.end(), word) != words.end()) {
    return std::nullopt;
  }
  const std::string near = value.is_string() ? nearest_word(word, words) : "";
  return not_what_is_expected(name, value, fmt::format("\"{}\"", fmt::join(words, "\" or \"")),
                              near.empty() ? "" : fmt::format("; did you mean \"{}\"?", near));
}

Checked check_words(const Key& key, const std::string& name, const toml::node& value) {
  const std::vector<std::string> known = split_words(key.words);
  const toml::array* array = value.as_array();
  const bool good = array && std::all_of(array->begin(), array->end(), [&](const toml::node& n) {
                      return n.is_string() && std::find(known.begin(), known.end(),
                                                        n.value_or(std::string())) != known.end();
                    });
  return good ? Checked()
              : not_what_is_expected(name, value,
                                     fmt::format("a list of \"{}\"", fmt::join(known, "\", \"")));
}

Checked check_number(const Key& key, const std::string& name, const toml::node& value) {
  const auto number = finite_number(value);
  const bool good = number && *number >= key.low && *number <= key.high &&
                    (key.kind != Kind::whole || *number == std::floor(*number));
  return good ? Checked() : not_what_is_expected(name, value, expected_number(key));
}

Checked check_day(const Key& key, const std::string& name, const toml::node& value) {
  const std::string word = value.value_or(std::string());
  const bool automatic = key.kind == Kind::day_or_auto;
  if (value.is_string() && ((automatic && word == "auto") || parse_month_day(word))) {
    return std::nullopt;
  }
  return not_what_is_expected(
      name, value,
      automatic ? "\"auto\" or a day as \"MM-DD\" in quotes" : "a day as \"MM-DD\" in quotes",
      word == "02-29" ? "; the year here has 365 days, use \"02-28\" or \"03-01\"" : "");
}

Checked check_file(const Key& key, const std::string& name, const toml::node& value) {
  if (const Checked wrong = check_text(key, name, value)) {
    return wrong;
  }
  const std::string& file = **value.as_string();
  if (const std::string fault = plain_file_fault(file); !fault.empty() && !is_address(file)) {
    return Problem{value.source().begin, fmt::format("{} = \"{}\": {}", name, file, fault)};
  }
  if (key.kind != Kind::monthly_file && file.find("{month}") != std::string::npos) {
    return Problem{value.source().begin,
                   fmt::format("{} = \"{}\": {{month}} stands for a month in [water.*] files only; "
                               "name one file",
                               name, file)};
  }
  return std::nullopt;
}

Checked check_number_or_file(const Key& key, const std::string& name, const toml::node& value) {
  if (value.is_string()) {
    return check_file(key, name, value);
  }
  const Checked wrong = check_number(key, name, value);
  return wrong ? not_what_is_expected(name, value, expected_number(key) + ", or a file in quotes")
               : wrong;
}

Checked check_table(const Key& key, const std::string& name, const toml::node& value) {
  if (key.kind == Kind::tables) {
    const toml::array* array = value.as_array();
    const bool good = array && std::all_of(array->begin(), array->end(),
                                           [](const toml::node& n) { return n.is_table(); });
    return good ? Checked()
                : Problem{value.source().begin,
                          fmt::format("{} must be a list of tables; write [[{}]]", name, name)};
  }
  return value.is_table() ? Checked()
                          : not_what_is_expected(name, value, "a table", "; write [" + name + "]");
}

}  // namespace

Checked check_value(const Key& key, const std::string& name, const toml::node& value) {
  switch (key.kind) {
    case Kind::text:
    case Kind::free_text:
      return check_text(key, name, value);
    case Kind::choice:
      return check_choice(key, name, value);
    case Kind::words:
      return check_words(key, name, value);
    case Kind::number:
    case Kind::whole:
      return check_number(key, name, value);
    case Kind::day:
    case Kind::day_or_auto:
      return check_day(key, name, value);
    case Kind::file:
    case Kind::monthly_file:
      return check_file(key, name, value);
    case Kind::number_or_file:
      return check_number_or_file(key, name, value);
    case Kind::number_or_twelve:
      return value.is_array() ? check_array(key, name, value) : check_number(key, name, value);
    case Kind::twelve:
    case Kind::bounds:
    case Kind::lon_lat:
    case Kind::curve:
    case Kind::judgements:
    case Kind::months:
      return check_array(key, name, value);
    case Kind::boxes:
      return check_boxes(name, value);
    case Kind::numbers_table:
    case Kind::table:
    case Kind::tables:
      return check_table(key, name, value);
    case Kind::later:
      return std::nullopt;  // key_check refuses it at the key, before its value is looked at
  }
  return std::nullopt;
}

}  // namespace tidelot::planfile
