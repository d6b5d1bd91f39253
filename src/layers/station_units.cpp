// SPDX-License-Identifier: Apache-2.0
#include "station_units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "layer_units.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

std::string squeezed(const std::string& unit) {
  std::string out = lower_ascii(unit);
  out.erase(std::remove(out.begin(), out.end(), ' '), out.end());
  return out;
}

}  // namespace

bool says_no_form(Quantity quantity, const std::string& unit) {
  const std::string plain = lower_ascii(unit);
  return quantity == Quantity::nitrogen && plain.find('g') != std::string::npos &&
         plain.find("mol") == std::string::npos && plain.find('n') == std::string::npos;
}

std::string unit_in_header(Quantity quantity, std::string_view header) {
  for (std::size_t at = header.find_first_of("(["); at != std::string_view::npos;
       at = header.find_first_of("([", at + 1)) {
    const std::size_t end = header.find_first_of(")]", at);
    const std::string unit(end == std::string_view::npos ? ""
                                                         : header.substr(at + 1, end - at - 1));
    if (conversion(quantity, unit)) {
      return unit;
    }
  }
  return "";
}

RowUnits::RowUnits(std::string key, Quantity quantity, std::string plan_unit,
                   std::string_view header)
    : key_(std::move(key)),
      quantity_(quantity),
      plan_unit_(std::move(plan_unit)),
      header_unit_(unit_in_header(quantity, header)) {
  if (!plan_unit_.empty() && !header_unit_.empty() && !agree(header_unit_, plan_unit_)) {
    throw std::invalid_argument(
        fmt::format("the file says its unit is \"{}\", the plan says \"{}\"; correct {}.unit or "
                    "leave it out",
                    header_unit_, plan_unit_, key_));
  }
}

/// Both the same, or the fuller one adds of what the mass is.
bool RowUnits::agree(const std::string& unit, const std::string& fuller) const {
  const bool completed =
      says_no_form(quantity_, unit) && squeezed(fuller).starts_with(squeezed(unit));
  return completed || conversion(quantity_, unit) == conversion(quantity_, fuller);
}

std::optional<Conversion> RowUnits::of(const std::string& said, const std::string& speciation) {
  const std::string& unit = said.empty() && plan_unit_.empty() ? header_unit_ : said;
  const bool form_apart =
      says_no_form(quantity_, unit) && lower_ascii(speciation).starts_with("as ");
  const std::string whole = form_apart ? unit + " " + speciation : unit;
  const auto known = seen_.find(whole);
  if (known != seen_.end()) {
    return known->second;
  }
  const auto conversion = found(whole);
  seen_.emplace(whole, conversion);
  return conversion;
}

std::optional<Conversion> RowUnits::found(const std::string& unit) {
  if (unit.empty()) {
    assumed_ = plan_unit_.empty();
    return plan_unit_of(key_, quantity_, plan_unit_).conversion;
  }
  const auto own = conversion(quantity_, unit);
  if (!own) {
    return own;
  }
  if (plan_unit_.empty()) {
    if (says_no_form(quantity_, unit)) {
      throw std::invalid_argument(
          fmt::format("the unit \"{0}\" does not say of what; set {1}.unit = \"{0} as N\", or as "
                      "NO3, as NH4",
                      unit, key_));
    }
    if (!header_unit_.empty() && !agree(header_unit_, unit)) {
      throw std::invalid_argument(fmt::format(
          "the row says its unit is \"{}\", the header says \"{}\"; correct one of them", unit,
          header_unit_));
    }
    return own;
  }
  if (!agree(unit, plan_unit_)) {
    throw std::invalid_argument(
        fmt::format("the row says its unit is \"{}\", the plan says \"{}\"; correct {}.unit or "
                    "leave it out",
                    unit, plan_unit_, key_));
  }
  return plan_unit_of(key_, quantity_, plan_unit_).conversion;
}

std::string RowUnits::text() const {
  std::string units;
  for (const auto& [unit, conversion] : seen_) {
    if (conversion) {
      const std::string shown = !unit.empty() ? unit : plan_unit_;
      units += shown.empty() ? "" : (units.empty() ? "" : ", ") + shown;
    }
  }
  const std::string canonical(canonical_unit(quantity_));
  return units.empty() || units == canonical ? canonical : units + " -> " + canonical;
}

}  // namespace tidelot
