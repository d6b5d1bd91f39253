// SPDX-License-Identifier: Apache-2.0
// What a run does not know well, and how its members are drawn.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "tidelot/core/draws.hpp"
#include "tidelot/layers/layer_set.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot::run {

/// The layers that have an error.
enum class ErrorLayer : std::uint8_t { temperature, salinity, light, nitrogen, current, depth };
inline constexpr std::size_t kErrorLayers = 6;

/// The error of one layer, one standard deviation.
struct LayerError {
  std::string key;   ///< "water.nitrogen"
  std::string name;  ///< "dissolved nitrogen"
  double sd = 0.0;   ///< in the unit; of a relative one the coefficient of variation
  bool relative = false;
  std::string unit;     ///< canonical; of a Secchi depth or a turbidity its own; "" where relative
  std::string basis;    ///< who says so
  bool judged = false;  ///< nobody does: a judgement
};

/// A constant of the crop that has a range.
struct ConstantRange {
  std::string key;  ///< "crop.mu_max_per_day"
  Triangular range;
  std::string unit;
  std::string basis;  ///< its source in the profile
};

struct UncertainInputs {
  std::array<LayerError, kErrorLayers> layers;  ///< index = ErrorLayer
  std::vector<ConstantRange> constants;
};

/// From the plan, the stations left out, the field readings or, where none of them says, a
/// judgement that says so in its basis.
[[nodiscard]] UncertainInputs uncertain_inputs(const Plan& plan,
                                               std::span<const LayerReport> reports);

/// What a random number is for: the same for a key in every plan, so that members of two bays share
/// the crop.
[[nodiscard]] std::uint32_t stream_of(std::string_view key);

}  // namespace tidelot::run
