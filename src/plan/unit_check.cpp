// SPDX-License-Identifier: Apache-2.0
#include "plan/unit_check.hpp"

#include <fmt/format.h>

#include "tidelot/core/text.hpp"

namespace tidelot::planfile {
namespace {

/// What usually went wrong where a value is out of its plausible range.
std::string_view likely_mistake(Quantity quantity) {
  switch (quantity) {
    case Quantity::temperature:
      return "is the unit K or degF?";
    case Quantity::salinity:
      return "is it a conductivity, or a point lost?";
    case Quantity::attenuation:
      return "is it a Secchi depth (measure = \"secchi\")?";
    case Quantity::secchi:
      return "is the unit cm or ft? A depth of 0 means no light at all";
    case Quantity::nitrogen:
      return "is the unit ug/L, or mg/L?";
    case Quantity::current:
      return "is the unit cm/s?";
    default:
      return "is the unit right?";
  }
}

/// A Secchi depth of 0 would make the attenuation infinite.
bool is_plausible(Quantity quantity, double value) {
  const PlausibleRange range = plausible_range(quantity);
  return value >= range.low && value <= range.high && (quantity != Quantity::secchi || value > 0.0);
}

}  // namespace

std::string checked_unit(Section& section, Quantity quantity) {
  const std::string unit = section.text("unit");
  if (!unit.empty() && !conversion(quantity, unit)) {
    const bool secchi = quantity == Quantity::attenuation && conversion(Quantity::secchi, unit);
    section.fail("unit",
                 fmt::format("\"{}\" is not a unit of {}; known: {}{}", unit, name(quantity),
                             fmt::join(known_units(quantity), ", "),
                             secchi ? "; for a Secchi depth write measure = \"secchi\"" : ""));
  }
  return unit;
}

void check_plausible(const Section& section, std::string_view key, Quantity quantity,
                     const std::string& unit, double value) {
  const std::string in(unit.empty() ? canonical_unit(quantity) : unit);
  const double canonical = conversion(quantity, in).value()(value);
  if (is_plausible(quantity, canonical)) {
    return;
  }
  const PlausibleRange range = plausible_range(quantity);
  section.fail(key, fmt::format("holds {} {}, beyond any {} ({} to {} {}); {}", shortest(value), in,
                                name(quantity), shortest(range.low), shortest(range.high),
                                canonical_unit(quantity), likely_mistake(quantity)));
}

}  // namespace tidelot::planfile
