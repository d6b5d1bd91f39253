// SPDX-License-Identifier: Apache-2.0
#include "plan/toml_place.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {

std::string one_line(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](unsigned char c) { return c < 0x20 || c == 0x7F; }, '?');
  return text;
}

void fail_at(const std::string& where, const toml::source_region& region, const std::string& line) {
  throw Error(Fault::plan, one_line(fmt::format("{}:{}:{}: {}", where, region.begin.line,
                                                region.begin.column, line)));
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
