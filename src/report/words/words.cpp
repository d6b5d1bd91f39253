// SPDX-License-Identifier: Apache-2.0
#include "report/words/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/core/units.hpp"

namespace tidelot::page {
namespace {

/// A number with three figures or so, and its unit.
std::string figure(double value, std::string_view unit) {
  if (std::isnan(value)) {
    return label("words.not_known");
  }
  const double size = std::abs(value);
  const int decimals = size < 0.995 ? 3 : size < 9.95 ? 2 : size < 99.5 ? 1 : 0;
  std::string number = fixed(value, decimals);
  if (size >= 99999.5) {
    number = fmt::format("{}{}", value < 0 ? "-" : "",
                         count(static_cast<std::size_t>(std::llround(size))));
  }
  return fmt::format("{} {}", number, unit);
}

std::string rounded(double value, int decimals, std::string_view unit) {
  return std::isnan(value) ? label("words.not_known")
                           : fmt::format("{} {}", fixed(value, decimals), unit);
}

/// "5.2 to 6.0 m"; "5.2 m" where both come out the same.
std::string span_of(const std::string& least, const std::string& most, std::string_view unit) {
  return least == most ? fmt::format("{} {}", least, unit)
                       : plain_say("words.to", least, most, unit);
}

}  // namespace

Measure length(double m, int decimals) {
  return {rounded(m, decimals, label("words.m")),
          rounded(m / kFootM, decimals > 0 ? decimals - 1 : 0, label("words.ft"))};
}

Measure side(double m) {
  return {rounded(m, 2, label("words.m")), rounded(m / kFootM, 2, label("words.ft"))};
}

Measure distance(double m) {
  return {m < 1000.0 ? rounded(m, 0, label("words.m")) : rounded(m / 1000.0, 2, label("words.km")),
          m < 0.25 * kMileM ? rounded(m / kFootM, 0, label("words.ft"))
                            : rounded(m / kMileM, 2, label("words.miles"))};
}

Measure area(double ha) {
  return {figure(ha, label("words.ha")), figure(ha / kAcreHa, label("words.acres"))};
}

Measure crop(double t) {
  return {figure(t, label("words.t")), figure(t / kShortTonT, label("words.short_tons"))};
}

Measure nitrogen(double kg) {
  return {figure(kg, label("words.kg")), figure(kg / kPoundKg, label("words.lb"))};
}

Measure crop_per_m(double kg_per_m) {
  return {figure(kg_per_m, label("words.kg_per_m")),
          figure(kg_per_m / kPoundKg * kFootM, label("words.lb_per_ft"))};
}

Measure nitrogen_per_m(double g_per_m) {
  return {figure(g_per_m, label("words.g_per_m")),
          figure(g_per_m / 1000.0 / kPoundKg * kFootM * 100.0, label("words.lb_per_100_ft"))};
}

Measure nitrogen_per_100_m(double kg) {
  return {figure(kg, label("words.kg_per_100_m")),
          figure(kg / kPoundKg * kFootM, label("words.lb_per_100_ft"))};
}

Measure crop_per_ha(double t_per_ha) {
  return {figure(t_per_ha, label("words.t_per_ha")),
          figure(t_per_ha / kShortTonT * kAcreHa, label("words.short_tons_per_acre"))};
}

Measure nitrogen_per_ha(double kg_per_ha) {
  return {figure(kg_per_ha, label("words.kg_per_ha")),
          figure(kg_per_ha / kPoundKg * kAcreHa, label("words.lb_per_acre"))};
}

Measure depths(double least_m, double most_m) {
  if (std::isnan(least_m) || std::isnan(most_m)) {
    return {label("words.not_known"), label("words.not_known")};
  }
  return {span_of(fixed(least_m, 1), fixed(most_m, 1), label("words.m")),
          span_of(fixed(least_m / kFootM, 0), fixed(most_m / kFootM, 0), label("words.ft"))};
}

std::string in_line(const Measure& measure, Units units) {
  if (units == Units::both && measure.metric != measure.us) {
    return plain_say("words.two_units", measure.metric, measure.us);
  }
  return units == Units::us ? measure.us : measure.metric;
}

std::string stacked(const Measure& measure, Units units) {
  if (units == Units::both && measure.metric != measure.us) {
    return text(measure.metric) + element("span class=\"other\"", text(measure.us));
  }
  return text(units == Units::us ? measure.us : measure.metric);
}

std::string date(DayOfYear day) {
  if (day <= 0) {
    return label("words.none");
  }
  const std::string month_day = format_month_day(day);
  const int number = (month_day[3] - '0') * 10 + month_day[4] - '0';
  return plain_say("words.day_month", number,
                   label(fmt::format("months.m{:02d}", month_of(day) + 1)));
}

std::string short_month(int month) { return label(fmt::format("months.s{:02d}", month + 1)); }

std::string dates(DayOfYear first, DayOfYear last) {
  return first <= 0 ? label("words.no_season") : plain_say("words.to_2", date(first), date(last));
}

std::string percent(double share) {
  if (std::isnan(share)) {
    return label("words.not_known");
  }
  return share > 0.0 && share < 0.01 ? label("words.less_than_1")
                                     : plain_say("words.percent", fixed(share * 100, 0));
}

std::string count(std::size_t number) {
  const std::string digits = fmt::format("{}", number);
  std::string grouped;
  for (std::size_t i = 0; i < digits.size(); ++i) {
    if (i > 0 && (digits.size() - i) % 3 == 0) {
      grouped += ',';
    }
    grouped += digits[i];
  }
  return grouped;
}

std::string bearing(double degrees) {
  const int whole = static_cast<int>(std::lround(degrees)) % 360;
  return fmt::format("{:03d}°", whole < 0 ? whole + 360 : whole);
}

std::string plain_value(const std::string& json) {
  const auto value = nlohmann::json::parse(json, nullptr, false);
  return value.is_string() ? value.get<std::string>() : json;
}

std::string key_value(const Plan& plan, std::string_view key) {
  const auto found = std::find_if(plan.keys.begin(), plan.keys.end(),
                                  [&](const ResolvedKey& each) { return each.key == key; });
  return found == plan.keys.end() ? "" : plain_value(found->value);
}

}  // namespace tidelot::page
