// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

// The smallest plan that holds, and edits of it, for the tests of the plan room.
namespace tidelot::testing {

/// 16 lines; what is appended begins at line 17, column 1.
inline const std::string kSmallest =
    "title = \"Heron Bight\"\n"
    "[area]\n"
    "bounds = [-30.10, 41.00, -30.02, 41.06]\n"
    "cell_m = 10.0\n"
    "[depth]\n"
    "file = \"depth.tif\"\n"
    "positive = \"down\"\n"
    "datum = \"MLLW\"\n"
    "[water]\n"
    "temperature = { constant = 20 }\n"
    "salinity = { constant = 28 }\n"
    "light = { constant = 0.8 }\n"
    "nitrogen = { constant = 5, unit = \"umol/L\" }\n"
    "current = { constant = 0.15 }\n"
    "[crop]\n"
    "profile = \"warm-red-alga\"\n";

/// The smallest plan with one place in it replaced.
inline std::string with(std::string_view old, std::string_view fresh) {
  std::string text = kSmallest;
  const std::size_t at = text.find(old);
  if (at == std::string::npos) {
    throw std::logic_error("the smallest plan lacks " + std::string(old));
  }
  return text.replace(at, old.size(), fresh);
}

inline std::string plus(std::string_view more) { return kSmallest + std::string(more); }

}  // namespace tidelot::testing
