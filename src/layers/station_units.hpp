// SPDX-License-Identifier: Apache-2.0
// The unit of each row of a table of readings.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "tidelot/core/units.hpp"

namespace tidelot {

/// A mass of nitrogen in which form? "mg/l" alone does not say.
[[nodiscard]] bool says_no_form(Quantity quantity, const std::string& unit);

/// The unit in brackets in a header, "DIN (mg/L)": the first that is one of the quantity, else "".
[[nodiscard]] std::string unit_in_header(Quantity quantity, std::string_view header);

/// Finds the conversion of a row's unit: the row's own, else the plan's, else the header's, else
/// the usual one.
class RowUnits {
 public:
  /// key names the plan's table, for messages. header: of the values. Throws std::invalid_argument
  /// where it says another unit than the plan.
  RowUnits(std::string key, Quantity quantity, std::string plan_unit, std::string_view header);

  /// said, speciation: the row's cells ("mg/l", "as N"). Empty when the unit is not one of the
  /// quantity. Throws std::invalid_argument where the row says another unit than plan or header, or
  /// a mass of which substance is not said; Error(plan) where nitrogen has no unit at all.
  [[nodiscard]] std::optional<Conversion> of(const std::string& said,
                                             const std::string& speciation);

  /// "mg/l as N, ug/l as N -> umol/L"
  [[nodiscard]] std::string text() const;
  /// That of a row which says none: the plan's, else the header's, else "".
  [[nodiscard]] const std::string& usual() const {
    return plan_unit_.empty() ? header_unit_ : plan_unit_;
  }
  [[nodiscard]] bool assumed() const { return assumed_; }  ///< a row without a unit, nor the plan's

 private:
  [[nodiscard]] std::optional<Conversion> found(const std::string& unit);
  [[nodiscard]] bool agree(const std::string& unit, const std::string& fuller) const;

  std::string key_;
  Quantity quantity_;
  std::string plan_unit_;
  std::string header_unit_;
  std::map<std::string, std::optional<Conversion>> seen_;
  bool assumed_ = false;
};

}  // namespace tidelot
