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

/// Length of the well-formed UTF-8 sequence at the start of text, 0 when it is malformed
/// (RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF).
std::size_t utf8_sequence(std::string_view text) {
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

bool is_utf8(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = utf8_sequence(text);
    if (length == 0) {
      return false;
    }
    text.remove_prefix(length);
  }
  return true;
}

}  // namespace tidelot
