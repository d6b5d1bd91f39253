// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <vector>

namespace tidelot {
namespace {

constexpr std::size_t kLongest = 300;  // bytes of foreign text in a message

/// Levenshtein distance.
std::size_t edits(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replace = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, replace});
    }
  }
  return row.back();
}

/// C0, DEL, C1, the separators of lines and paragraphs, and what is no character (U+FFFE, U+FFFF
/// and their likes), which XML has no place for.
bool is_no_text(char32_t c) {
  return c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0x2028 || c == 0x2029 ||
         (c & 0xFFFE) == 0xFFFE;
}

}  // namespace

std::string nearest_word(std::string_view word, std::span<const std::string> words) {
  const std::size_t limit = std::max<std::size_t>(2, word.size() / 3);
  std::string best;
  std::size_t best_edits = limit + 1;
  for (const std::string& candidate : words) {
    const std::size_t count = edits(word, candidate);
    const bool all_replaced = count >= std::max(word.size(), candidate.size());
    if (count < best_edits && !all_replaced) {
      best = candidate;
      best_edits = count;
    }
  }
  return best;
}

std::string shortest(double value) {
  return std::isnan(value) ? "nan" : fmt::format("{}", value == 0.0 ? 0.0 : value);
}

std::string fixed(double value, int decimals) {
  if (std::isnan(value)) {
    return "nan";
  }
  std::string text = fmt::format("{:.{}f}", value, decimals);
  const bool all_zero = text.find_first_not_of("-0.") == std::string::npos;
  return all_zero && text.front() == '-' ? text.substr(1) : text;
}

std::string lower_ascii(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  return out;
}

std::size_t utf8_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(0);
  const std::size_t length = first < 0x80   ? 1
                             : first < 0xC2 ? 0
                             : first < 0xE0 ? 2
                             : first < 0xF0 ? 3
                             : first < 0xF5 ? 4
                                            : 0;
  if (length == 0 || length > text.size()) {
    return 0;
  }
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0) != 0x80) {
      return 0;
    }
  }
  const bool overlong = (first == 0xE0 && byte(1) < 0xA0) || (first == 0xF0 && byte(1) < 0x90);
  const bool surrogate = first == 0xED && byte(1) > 0x9F;
  const bool too_high = first == 0xF4 && byte(1) > 0x8F;
  return overlong || surrogate || too_high ? 0 : length;
}

char32_t code_point(std::string_view sequence) {
  const std::size_t length = sequence.size();
  const auto first = static_cast<unsigned char>(sequence.front());
  char32_t code = length == 1 ? first : first & (0x7FU >> length);
  for (const char c : sequence.substr(1)) {
    code = code << 6 | (static_cast<unsigned char>(c) & 0x3FU);
  }
  return code;
}

std::string one_line(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const std::size_t length = utf8_length(text);
    if (length == 0 || is_no_text(code_point(text.substr(0, length)))) {
      out += '?';
    } else {
      out += text.substr(0, length);
    }
    text.remove_prefix(std::max<std::size_t>(1, length));
  }
  return out;
}

std::string foreign_text(std::string_view text) {
  std::string line = one_line(text);
  if (line.size() <= kLongest) {
    return line;
  }
  std::size_t end = kLongest;
  while (end > 0 && (static_cast<unsigned char>(line[end]) & 0xC0) == 0x80) {
    --end;
  }
  return line.substr(0, end) + "...";
}

bool is_utf8(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = utf8_length(text);
    if (length == 0) {
      return false;
    }
    text.remove_prefix(length);
  }
  return true;
}

}  // namespace tidelot
