// SPDX-License-Identifier: Apache-2.0
#include "layer_units.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>
#include <optional>

#include "tidelot/core/error.hpp"

namespace tidelot {
namespace {

bool is_same(const Conversion& a, const Conversion& b) {
  return std::abs(a.scale - b.scale) <= 1e-9 * std::abs(a.scale) &&
         std::abs(a.offset - b.offset) <= 1e-9 && a.per_mass == b.per_mass;
}

std::string known(Quantity quantity) {
  return fmt::format("{}", fmt::join(known_units(quantity), ", "));
}

UnitChoice chosen(Quantity quantity, const Conversion& conversion, const std::string& unit,
                  const char* basis) {
  const std::string canonical(canonical_unit(quantity));
  const bool plain = is_same(conversion, {});
  return {conversion, plain ? canonical : unit + " -> " + canonical, basis};
}

Conversion planned(const std::string& key, Quantity quantity, const std::string& unit) {
  const auto found = conversion(quantity, unit);
  if (!found) {
    throw Error(Fault::plan, fmt::format("{}.unit: \"{}\" is not a unit of {}; known are {}", key,
                                         unit, name(quantity), known(quantity)));
  }
  return *found;
}

[[noreturn]] void refuse(const std::string& key, const std::string& written,
                         const std::string& what) {
  throw Error(Fault::input, fmt::format("{}: {}: {}", key, written, what));
}

}  // namespace

UnitChoice plan_unit_of(const std::string& key, Quantity quantity, const std::string& plan_unit) {
  if (!plan_unit.empty()) {
    return chosen(quantity, planned(key, quantity, plan_unit), plan_unit, "from the plan");
  }
  if (quantity == Quantity::nitrogen) {
    throw Error(Fault::plan, fmt::format("{}.unit: nitrogen has no default unit; give one of {}",
                                         key, known(quantity)));
  }
  return chosen(quantity, {}, "", "from the plan");
}

UnitChoice choose_unit(const std::string& key, const std::string& written, Quantity quantity,
                       const std::string& plan_unit, const std::string& file_unit) {
  const auto of_file = file_unit.empty() ? std::nullopt : conversion(quantity, file_unit);
  if (!plan_unit.empty()) {
    const Conversion of_plan = planned(key, quantity, plan_unit);
    if (of_file && !is_same(*of_file, of_plan)) {
      refuse(
          key, written,
          fmt::format("the file says its unit is \"{}\", the plan says \"{}\"; correct {}.unit or "
                      "leave it out",
                      file_unit, plan_unit, key));
    }
    return chosen(quantity, of_plan, plan_unit, "unit from the plan");
  }
  if (of_file) {
    return chosen(quantity, *of_file, file_unit, "unit from the file");
  }
  if (!file_unit.empty()) {
    refuse(key, written,
           fmt::format("its unit \"{}\" is not a known unit of {}; set {}.unit to one of {}",
                       file_unit, name(quantity), key, known(quantity)));
  }
  if (quantity == Quantity::nitrogen) {
    throw Error(Fault::plan,
                fmt::format("{}.unit: is missing, {} does not say its unit, and nitrogen has no "
                            "default; write one of {}",
                            key, written, known(quantity)));
  }
  return chosen(quantity, {}, "", "unit not stated, the usual one assumed");
}

void keep_planned_error(std::optional<double> planned, Quantity quantity,
                        const Conversion& conversion, LayerReport& report) {
  if (planned) {
    report.error = *planned * std::abs(conversion.scale);
    report.error_unit = std::string(canonical_unit(quantity));
    report.error_basis = "from the plan";
  }
}

}  // namespace tidelot
