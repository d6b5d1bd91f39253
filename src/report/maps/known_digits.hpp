// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>

#include "report/words/words.hpp"
#include "tidelot/sites/spread.hpp"

/// Figures of the summary, rounded to what is known of them.
namespace tidelot::page {

/// P10 and P90 of a figure.
struct Band {
  double low = 0.0;
  double high = 0.0;
};

/// Decimals that a figure is worth: its last digit is at most a quarter of P10..P90; without a
/// spread (none, or of width 0) it has two figures. Negative: tens, hundreds.
[[nodiscard]] int known_decimals(double value, const std::optional<Band>& band);

/// The value with so many decimals; below 0 decimals, rounded to tens, hundreds ...
[[nodiscard]] std::string rounded_to(double value, int decimals);

/// A unit in one system: its label's name, and how many of it make one of the figure's own unit.
struct KnownUnit {
  std::string_view name;
  double factor = 1.0;
};

/// "3.6 kg (2.3 to 4.5), or 7.9 lb (5.0 to 9.9)": in the units asked for, as plain text.
[[nodiscard]] std::string known(double value, const std::optional<Band>& band,
                                const KnownUnit& metric, const KnownUnit& us, Units units);
/// Of a yield in t and of nitrogen in kg.
[[nodiscard]] std::string known_crop(double t, const std::optional<Band>& band, Units units);
[[nodiscard]] std::string known_nitrogen(double kg, const std::optional<Band>& band, Units units);
/// Of a share 0..1, in per cent.
[[nodiscard]] std::string known_percent(double share, const std::optional<Band>& band);

}  // namespace tidelot::page
