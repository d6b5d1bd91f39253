// SPDX-License-Identifier: Apache-2.0
#include "report/maps/known_digits.hpp"

#include <algorithm>
#include <cmath>

#include "report/words/say.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/core/units.hpp"

namespace tidelot::page {
namespace {

constexpr int kMostDecimals = 6;

std::optional<Band> scaled(const std::optional<Band>& band, double factor) {
  return band ? std::optional(Band{band->low * factor, band->high * factor}) : std::nullopt;
}

/// "3.6 kg (2.3 to 4.5)".
std::string in_unit(double value, const std::optional<Band>& band, const KnownUnit& unit) {
  const double here = value * unit.factor;
  const std::optional<Band> around = scaled(band, unit.factor);
  const int decimals = known_decimals(here, around);
  const std::string figure = rounded_to(here, decimals);
  return around ? plain_say("answer.figure_range", figure, label(unit.name),
                            rounded_to(around->low, decimals), rounded_to(around->high, decimals))
                : plain_say("answer.figure", figure, label(unit.name));
}

}  // namespace

int known_decimals(double value, const std::optional<Band>& band) {
  const double width = band ? std::abs(band->high - band->low) : 0.0;
  const double step = width > 0.0 ? width / 4.0 : std::abs(value) / 10.0;
  if (!(step > 0.0) || !std::isfinite(step)) {
    return 0;
  }
  return std::min(kMostDecimals, -static_cast<int>(std::floor(std::log10(step) + 1e-12)));
}

std::string rounded_to(double value, int decimals) {
  if (decimals >= 0) {
    return fixed(value, decimals);
  }
  const double power = std::pow(10.0, -decimals);
  const double whole = std::round(value / power) * power;
  return (whole < 0.0 ? "-" : "") + count(static_cast<std::size_t>(std::llround(std::abs(whole))));
}

std::string known(double value, const std::optional<Band>& band, const KnownUnit& metric,
                  const KnownUnit& us, Units units) {
  if (std::isnan(value)) {
    return label("words.not_known");
  }
  const std::string first = in_unit(value, band, units == Units::us ? us : metric);
  return units == Units::both ? plain_say("answer.or", first, in_unit(value, band, us)) : first;
}

std::string known_crop(double t, const std::optional<Band>& band, Units units) {
  return known(t, band, {"words.t", 1.0}, {"words.short_tons", 1.0 / kShortTonT}, units);
}

std::string known_nitrogen(double kg, const std::optional<Band>& band, Units units) {
  return known(kg, band, {"words.kg", 1.0}, {"words.lb", 1.0 / kPoundKg}, units);
}

std::string known_percent(double share, const std::optional<Band>& band) {
  return in_unit(share, band, {"answer.percent_sign", 100.0});
}

}  // namespace tidelot::page
