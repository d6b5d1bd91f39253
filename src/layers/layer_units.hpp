// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>

#include "tidelot/core/units.hpp"
#include "tidelot/layers/layer_set.hpp"

namespace tidelot {

/// How a layer's values become canonical ones, and on whose word.
struct UnitChoice {
  Conversion conversion;
  std::string text;   ///< "ft -> m", or "m" where nothing changes
  std::string basis;  ///< "unit from the plan", "unit from the file", "unit assumed"
};

/// The plan's unit, else the file's, else the canonical one; nitrogen has no default.
/// Throws Error(plan) for an unknown unit in the plan, Error(input) naming the file where the
/// file's unit is not known, says something else than the plan, or is needed and missing.
[[nodiscard]] UnitChoice choose_unit(const std::string& key, const std::string& written,
                                     Quantity quantity, const std::string& plan_unit,
                                     const std::string& file_unit);

/// Keeps the plan's error of a layer, in the layer's unit, with the layer's report.
void keep_planned_error(std::optional<double> planned, Quantity quantity,
                        const Conversion& conversion, LayerReport& report);

/// For values that stand in the plan itself.
[[nodiscard]] UnitChoice plan_unit_of(const std::string& key, Quantity quantity,
                                      const std::string& plan_unit);

}  // namespace tidelot
