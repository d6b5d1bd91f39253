// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace tidelot {

/// The candidate with the smallest edit distance to word, or "" when none is near enough to help
/// (more than a third of its letters, two at least, or all of them would have to change).
[[nodiscard]] std::string nearest_word(std::string_view word, std::span<const std::string> words);

/// A number as short as it reads back to the same double ("0.1", "1e+20"); locale-free.
[[nodiscard]] std::string shortest(double value);

/// A number with a fixed count of decimals; locale-free; "-0.00" is printed as "0.00".
[[nodiscard]] std::string fixed(double value, int decimals);

/// The letters A to Z made small; locale-free, all other bytes as they are.
[[nodiscard]] std::string lower_ascii(std::string_view text);

/// Is it well-formed UTF-8?
[[nodiscard]] bool is_utf8(std::string_view text);

/// Length in bytes of the well-formed UTF-8 sequence (RFC 3629) at the start of a text that is not
/// empty; 0 where there is none.
[[nodiscard]] std::size_t utf8_length(std::string_view text);

/// The code point of one whole well-formed sequence.
[[nodiscard]] char32_t code_point(std::string_view sequence);

/// Text from a stranger's file as a message or XML may hold it: a '?' for every control character,
/// line break, noncharacter and byte that is not UTF-8. They would forge a second line, steer a
/// terminal or spoil the file.
[[nodiscard]] std::string one_line(std::string_view text);

/// one_line, cut to 300 bytes: a name, an attribute or a cell amid a message.
[[nodiscard]] std::string foreign_text(std::string_view text);

}  // namespace tidelot
