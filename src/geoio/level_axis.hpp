// SPDX-License-Identifier: Apache-2.0
// What a vertical axis counts (CF conventions 4.3), from the words that stand beside it.
#pragma once

#include <optional>
#include <string>

namespace tidelot::geoio {

struct LevelWords {
  std::string name;
  std::string units;
  std::string positive;
  std::string axis;
  std::string standard_name;
  bool formula = false;  ///< formula_terms: sigma and its kin
};

/// Times `metres` a value is a depth in metres.
struct LevelUnit {
  double metres = 1.0;
  std::string assumed;  ///< said where something was
};

[[nodiscard]] bool is_vertical_axis(const LevelWords& words);

/// None where the axis is not one of depth or height. A decibar of pressure is taken for a metre:
/// 1 dbar is 0.99 m of sea water.
[[nodiscard]] std::optional<LevelUnit> level_unit(const LevelWords& words);

/// Why the levels cannot be used and what to do, "" where they can.
[[nodiscard]] std::string trouble_with(const LevelWords& words);

}  // namespace tidelot::geoio
