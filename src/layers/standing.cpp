// SPDX-License-Identifier: Apache-2.0
#include "standing.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

struct Word {
  std::string_view text;
  Standing food;
  Standing other;
};

using enum Standing;

constexpr std::array kWords{
    Word{"closed", closed, closed},
    Word{"yes", closed, closed},
    Word{"mapped", closed, closed},
    Word{"present", closed, closed},
    Word{"open", open, open},
    Word{"no", open, open},
    Word{"absent", open, open},
    Word{"surveyed and absent", open, open},
    Word{"approved", open, open},
    Word{"conditionally approved", unknown, open},
    Word{"restricted", closed, caution},
    Word{"conditionally restricted", closed, caution},
    Word{"prohibited", closed, unknown},
    Word{"unclassified", unknown, unknown},
};

std::string trimmed(const std::string& text) {
  const std::size_t first = text.find_first_not_of(' ');
  return first == std::string::npos ? ""
                                    : text.substr(first, text.find_last_not_of(' ') - first + 1);
}

}  // namespace

Standing standing_of(const std::string& status, bool food) {
  const std::string word = lower_ascii(trimmed(status));
  const auto found = std::find_if(kWords.begin(), kWords.end(),
                                  [&](const Word& known) { return known.text == word; });
  return found == kWords.end() ? unknown : food ? found->food : found->other;
}

}  // namespace tidelot
