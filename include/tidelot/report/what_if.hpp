// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace tidelot {

/// The water with one distance or limit of the plan moved.
struct MovedWater {
  double value = 0.0;              ///< of the key; NaN where each shape has its own
  double open_ha = 0.0;            ///< open and scored
  std::optional<double> yield_t;   ///< of the best site, without draw-down; none: no site
  std::optional<double> offset_m;  ///< of its centre from the best site's as planned; none: either
                                   ///< is missing
};

/// A distance or limit that closes water or sites, made smaller and larger.
struct MovedKey {
  std::string key;   ///< "closed[2].setback_m", counted from 0 as in messages
  std::string name;  ///< "main channel: setback"
  std::string unit;  ///< "" for a number without one
  double value = 0.0;
  MovedWater less, more;
};

/// How the open area and the best site hang on the plan's distances and limits, one at a time.
struct WhatIf {
  double share = 0.0;             ///< by which each is moved, down and up
  double open_ha = 0.0;           ///< as planned
  std::optional<double> yield_t;  ///< likewise
  std::vector<MovedKey> keys;
};

}  // namespace tidelot
