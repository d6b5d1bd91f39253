// SPDX-License-Identifier: Apache-2.0
// [field]: readings from the boat.
#include "plan/read_tables.hpp"

namespace tidelot::planfile {

std::optional<FieldPlan> read_field(Reading& reading) {
  if (!reading.root.contains("field")) {
    return std::nullopt;
  }
  Section field(reading, "field");
  FieldPlan out;
  out.readings = field.file("readings");
  const std::string apply = field.text("apply");
  out.apply = apply == "bias"      ? FieldPlan::Apply::bias
              : apply == "replace" ? FieldPlan::Apply::replace
                                   : FieldPlan::Apply::confidence;
  if (out.apply == FieldPlan::Apply::replace) {
    out.range_m = field.number("range_m");
  } else if (field.given("range_m")) {
    field.fail("range_m", "says something with apply = \"replace\" only; take it out");
  }
  return out;
}

}  // namespace tidelot::planfile
