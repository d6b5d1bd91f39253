// SPDX-License-Identifier: Apache-2.0
// What every fuzzer holds its room to, besides that nothing crashes.
#pragma once

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "tidelot/core/text.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t count);

namespace tidelot::fuzz {

inline std::string_view text_of(const std::uint8_t* bytes, std::size_t count) {
  return {reinterpret_cast<const char*>(bytes), count};
}

inline void promise(bool kept, std::string_view what) {
  if (!kept) {
    std::fprintf(stderr, "not kept: %.*s\n", static_cast<int>(what.size()), what.data());
    std::abort();
  }
}

/// One line of UTF-8 that steers no terminal. Looks at the bytes itself: one_line is what is
/// tested.
inline void promise_one_line(std::string_view line) {
  promise(!line.empty() && is_utf8(line), "a message is UTF-8 text");
  for (std::size_t i = 0; i < line.size(); ++i) {
    const auto byte = static_cast<unsigned char>(line[i]);
    const auto next = static_cast<unsigned char>(i + 1 < line.size() ? line[i + 1] : 0);
    promise(byte >= 0x20 && byte != 0x7F && !(byte == 0xC2 && next < 0xA0),
            "a message holds no control character");
    promise(
        !line.substr(i).starts_with("\xE2\x80\xA8") && !line.substr(i).starts_with("\xE2\x80\xA9"),
        "a message is one line");
  }
}

}  // namespace tidelot::fuzz
