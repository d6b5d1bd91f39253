// SPDX-License-Identifier: Apache-2.0
#include "filter_words.hpp"

#include <algorithm>
#include <array>
#include <cctype>

#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

constexpr std::array<std::string_view, 25> kKeywords{
    "and",    "or",        "not",     "in",      "like",    "ilike", "is",    "null", "between",
    "escape", "true",      "false",   "cast",    "as",      "case",  "when",  "then", "else",
    "end",    "character", "integer", "numeric", "collate", "glob",  "regexp"};

struct Word {
  std::string text;
  char quote = 0;          ///< that it stands in; 0: none
  bool is_called = false;  ///< a bracket follows: a function, or a list
};

/// Words in the order of the filter; what stands in quotes is one word.
std::vector<Word> words_of(std::string_view filter) {
  std::vector<Word> words;
  std::string run;
  char quote = 0;
  for (const char c : std::string(filter) + " ") {
    const auto byte = static_cast<unsigned char>(c);
    const bool ends_quote = quote != 0 && c == quote;
    if (!ends_quote && (quote != 0 || std::isalnum(byte) != 0 || c == '_' || byte >= 0x80)) {
      run += c;
      continue;
    }
    if (!run.empty()) {
      words.push_back({run, quote});
      run.clear();
    }
    if (c == '(' && !words.empty()) {
      words.back().is_called = true;
    }
    const bool opens = quote == 0 && (c == '\'' || c == '"' || c == '`' || c == '[');
    quote = opens ? (c == '[' ? ']' : c) : (ends_quote ? char{0} : quote);
  }
  return words;
}

bool is_one_of(std::string_view word, std::span<const std::string> fields) {
  const std::string small = lower_ascii(word);
  return std::any_of(fields.begin(), fields.end(),
                     [&](const std::string& field) { return lower_ascii(field) == small; });
}

bool is_no_name(const Word& word) {
  const bool number = std::isdigit(static_cast<unsigned char>(word.text[0])) != 0;
  const std::string small = lower_ascii(word.text);
  return word.quote == '\'' || (word.quote == 0 && (number || word.is_called ||
                                                    std::find(kKeywords.begin(), kKeywords.end(),
                                                              small) != kKeywords.end()));
}

}  // namespace

bool holds_word_outside_quotes(std::string_view filter, std::string_view word) {
  const std::vector<Word> words = words_of(filter);
  return std::any_of(words.begin(), words.end(), [&](const Word& each) {
    return each.quote == 0 && lower_ascii(each.text) == word;
  });
}

std::string unknown_field(std::string_view filter, std::span<const std::string> fields) {
  for (const Word& word : words_of(filter)) {
    if (!is_no_name(word) && !is_one_of(word.text, fields)) {
      return word.text;
    }
  }
  return "";
}

}  // namespace tidelot::geoio
