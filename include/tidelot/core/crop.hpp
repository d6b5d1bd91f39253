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

/// What grows the crop. A fragmenting alga is stocked by weight and cut back to it at every
/// harvest; of a kelp, seeded line is put out and the whole frond is hauled once.
enum class GrowthModel { fragmenting_alga, kelp_frond };

/// The season of a warm crop lies around the year's warmest days, that of a cold one around the
/// coldest.
enum class SeasonRule { warm, cold };

/// What holds nitrogen uptake back in slow water: a factor of the current alone, or the diffusion
/// through the layer that sticks to the crop.
enum class BoundaryLayer { current, mass_transfer };

/// A crop profile, read from TOML.
struct Crop {
  std::string name;    ///< "warm-red-alga"
  std::string title;   ///< "Warm-temperate red alga on longlines"
  std::string about;   ///< a sentence or two
  std::string season;  ///< its season rule in words
  GrowthModel model = GrowthModel::fragmenting_alga;
  SeasonRule season_rule = SeasonRule::warm;
  std::vector<CropConstant> constants;
  Curve salinity;               ///< practical salinity -> 0..1
  std::string salinity_source;  ///< where the curve comes from
  Curve temperature;            ///< degC -> 0..1; of a kelp frond alone
  std::string temperature_source;
  Curve growth;  ///< net yield, kg per metre -> 0..1: the growth criterion's default
  std::string growth_source;

  /// A constant's value. Throws std::out_of_range for a name the profile lacks: a fault of the
  /// code.
  [[nodiscard]] double at(std::string_view constant) const;
  [[nodiscard]] bool has(std::string_view constant) const;
};

/// Temperatures between which a crop grows, and its best, degC.
struct GrowthRange {
  double t_min, t_opt, t_max;
};
/// An alga's three constants; of a kelp, where its temperature curve is 0 (infinite where it never
/// is) and the middle of where it is highest.
[[nodiscard]] GrowthRange growth_range(const Crop& crop);

}  // namespace tidelot
