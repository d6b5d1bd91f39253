// SPDX-License-Identifier: Apache-2.0
// The table of readings taken from the boat.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "station_day.hpp"
#include "tidelot/core/grid.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// What a reading measures; each has its layer.
enum class FieldProperty { temperature, salinity, kd, nitrogen, current, depth_low_water };
inline constexpr FieldProperty kFieldProperties[] = {
    FieldProperty::temperature, FieldProperty::salinity, FieldProperty::kd,
    FieldProperty::nitrogen,    FieldProperty::current,  FieldProperty::depth_low_water};

/// As the table writes it: "temperature"; a Secchi depth counts as "kd".
[[nodiscard]] std::string name(FieldProperty property);
[[nodiscard]] Quantity quantity(FieldProperty property);

struct FieldReading {
  FieldProperty property = FieldProperty::temperature;
  LonLat place;
  Day day;
  double value = 0.0;     ///< canonical unit
  bool per_mass = false;  ///< nitrogen per kilogram of seawater: still without its density
};

struct FieldTable {
  std::vector<FieldReading> all;   ///< by property, then in the order of the table
  std::vector<std::string> notes;  ///< what was left out or assumed, one line each
};

/// Reads lon, lat, date, property, value and, where the table has them, unit and what else a table
/// of stations may hold; rows are read by the same code. Secchi depths become attenuation by the
/// plan's relation. Throws Error(input) with the file and, where it can, the row.
[[nodiscard]] FieldTable read_field_table(const FieldPlan& plan, const LightPlan& light,
                                          std::string_view text);

}  // namespace tidelot
