// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "tidelot/core/curve.hpp"

namespace tidelot {

/// One constant of a crop profile, with where it comes from.
struct CropConstant {
  std::string name;    ///< as in [crop.set], for example "mu_max_per_day"
  double value = 0.0;  ///< the mode of its triangular range
  double low = 0.0;
  double high = 0.0;  ///< equal to low where no range is stated
  std::string unit;
  std::string source;  ///< citation, or "judgement", "from memory", "common practice, no source"
};

/// A crop profile: the data of docs/science/warm-red-alga.md, read from TOML.
struct Crop {
  std::string name;    ///< "warm-red-alga"
  std::string title;   ///< "Warm-temperate red alga on longlines"
  std::string about;   ///< a sentence or two
  std::string season;  ///< its season rule in words
  std::vector<CropConstant> constants;
  Curve salinity;               ///< practical salinity -> 0..1
  std::string salinity_source;  ///< where the curve comes from

  /// A constant's value. Throws std::out_of_range for a name the profile lacks: a fault of the
  /// code.
  [[nodiscard]] double at(std::string_view constant) const;
};

}  // namespace tidelot
