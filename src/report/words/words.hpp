// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

#include "tidelot/core/calendar.hpp"
#include "tidelot/core/grid.hpp"
#include "tidelot/plan/plan.hpp"

/// Numbers as people read them: metric, US customary or both, dates, positions. NaN is "not known".
namespace tidelot::page {

using Units = ReportPlan::Units;

/// One quantity in both systems, as plain text.
struct Measure {
  std::string metric;
  std::string us;
};

[[nodiscard]] Measure length(double m, int decimals = 1);     ///< m, ft
[[nodiscard]] Measure side(double m);                         ///< m, ft, both to the centimetre
[[nodiscard]] Measure distance(double m);                     ///< m or km, ft or miles
[[nodiscard]] Measure area(double ha);                        ///< ha, acres
[[nodiscard]] Measure crop(double t);                         ///< t, short tons
[[nodiscard]] Measure nitrogen(double kg);                    ///< kg, lb
[[nodiscard]] Measure nitrogen_per_100_m(double kg);          ///< kg per 100 m, lb per 100 ft
[[nodiscard]] Measure crop_per_m(double kg_per_m);            ///< kg/m, lb/ft
[[nodiscard]] Measure nitrogen_per_m(double g_per_m);         ///< g/m, lb per 100 ft
[[nodiscard]] Measure crop_per_ha(double t_per_ha);           ///< t/ha, short tons/acre
[[nodiscard]] Measure nitrogen_per_ha(double kg_per_ha);      ///< kg/ha, lb/acre
[[nodiscard]] Measure depths(double least_m, double most_m);  ///< "4.1 to 6.3 m"

/// "1.20 ha (2.97 acres)", or the one that the plan asks for.
[[nodiscard]] std::string in_line(const Measure& measure, Units units);
/// The two under each other, as HTML, for the cell of a table.
[[nodiscard]] std::string stacked(const Measure& measure, Units units);

/// "15 May"; "none" for a day of 0.
[[nodiscard]] std::string date(DayOfYear day);
/// "15 May to 24 October".
[[nodiscard]] std::string dates(DayOfYear first, DayOfYear last);
/// "Jun".
[[nodiscard]] std::string short_month(int month);
/// "34 %" of a share 0..1; "less than 1 %" for a small one.
[[nodiscard]] std::string percent(double share);
/// 12345678 -> "12,345,678".
[[nodiscard]] std::string count(std::size_t number);
/// "045° 12′ 36″".
[[nodiscard]] std::string fine_bearing(double degrees);
/// "045°".
[[nodiscard]] std::string bearing(double degrees);

/// One place in the three formats of the trade.
[[nodiscard]] std::string decimal_degrees(
    LonLat place);  ///< "41.034567, -30.054321": latitude first
[[nodiscard]] std::string decimal_minutes(LonLat place);  ///< "41° 02.074′ N, 30° 03.259′ W"
[[nodiscard]] std::string minutes_seconds(LonLat place);  ///< "41° 02′ 04.4″ N, 30° 03′ 15.6″ W"
/// One coordinate in decimal minutes; marks is "NS" or "EW".
[[nodiscard]] std::string decimal_minutes(double degrees, std::string_view marks, int decimals);

/// A JSON value of a resolved key as people write it: no quotes round a text.
[[nodiscard]] std::string plain_value(const std::string& json);
/// The value of a key of the resolved plan, "" when it is not there.
[[nodiscard]] std::string key_value(const Plan& plan, std::string_view key);

}  // namespace tidelot::page
