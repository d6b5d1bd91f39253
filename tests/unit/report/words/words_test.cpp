// SPDX-License-Identifier: Apache-2.0
#include "report/words/words.hpp"

#include <catch2/catch.hpp>
#include <cmath>

namespace tidelot::page {
namespace {

TEST_CASE("figures in both systems", "[report]") {
  CHECK(in_line(area(1.2), Units::both) == "1.20 ha (2.97 acres)");
  CHECK(in_line(area(1.2), Units::metric) == "1.20 ha");
  CHECK(in_line(area(1.2), Units::us) == "2.97 acres");
  CHECK(stacked(nitrogen(8.6), Units::both) == "8.60 kg<span class=\"other\">19.0 lb</span>");
  CHECK(crop(3.07).us == "3.38 short tons");
  CHECK(length(30.48).us == "100 ft");
  // 1 kg/ha = 0.892179 lb/acre
  CHECK(nitrogen_per_ha(100.0).us == "89.2 lb per acre");
  // 10 g/m: 304.8 g, 0.672 lb in 100 ft
  CHECK(nitrogen_per_m(10.0).us == "0.672 lb per 100 ft");
  CHECK(depths(5.21, 6.04).metric == "5.2 to 6.0 m");
  CHECK(depths(5.21, 5.24).metric == "5.2 m");
  CHECK(depths(5.21, 5.24).us == "17 ft");
}

TEST_CASE("distances change their unit with their size", "[report]") {
  CHECK(distance(999.0).metric == "999 m");
  CHECK(distance(1400.0).metric == "1.40 km");
  CHECK(distance(100.0).us == "328 ft");
  CHECK(distance(1609.344).us == "1.00 miles");
}

TEST_CASE("what is not known is said once", "[report]") {
  const double unknown = std::nan("");
  CHECK(in_line(area(unknown), Units::both) == "not known");
  CHECK(in_line(depths(unknown, 3.0), Units::both) == "not known");
  CHECK(percent(unknown) == "not known");
}

TEST_CASE("no figure is rounded over its number of decimals", "[report]") {
  CHECK(area(0.9949).metric == "0.995 ha");
  CHECK(area(0.9951).metric == "1.00 ha");
  CHECK(area(99.47).metric == "99.5 ha");
  CHECK(area(99.52).metric == "100 ha");
  CHECK(area(1234567.0).metric == "1,234,567 ha");
  CHECK(nitrogen(-3.2).metric == "-3.20 kg");
}

TEST_CASE("dates, shares, counts and bearings", "[report]") {
  CHECK(date(135) == "15 May");
  CHECK(date(365) == "31 December");
  CHECK(date(366) == "1 January");
  CHECK(date(0) == "none");
  CHECK(dates(0, 0) == "no season");
  CHECK(dates(135, 297) == "15 May to 24 October");
  CHECK(percent(0.344) == "34 %");
  CHECK(percent(0.004) == "less than 1 %");
  CHECK(percent(0.0) == "0 %");
  CHECK(count(0) == "0");
  CHECK(count(999) == "999");
  CHECK(count(1000) == "1,000");
  CHECK(count(12345678) == "12,345,678");
  CHECK(bearing(7.4) == "007°");
  CHECK(bearing(359.7) == "000°");
}

TEST_CASE("one place in three formats", "[report]") {
  const LonLat place{-30.054321, 41.034567};
  CHECK(decimal_degrees(place) == "41.034567, -30.054321");
  CHECK(decimal_minutes(place) == "41° 02.074′ N, 30° 03.259′ W");
  CHECK(minutes_seconds(place) == "41° 02′ 04.4″ N, 30° 03′ 15.6″ W");
}

TEST_CASE("minutes and seconds never read 60", "[report]") {
  CHECK(decimal_minutes(LonLat{9.9999999, -0.9999999}) == "1° 00.000′ S, 10° 00.000′ E");
  CHECK(minutes_seconds(LonLat{9.9999999, -0.9999999}) == "1° 00′ 00.0″ S, 10° 00′ 00.0″ E");
  CHECK(decimal_minutes(-30.05, "EW", 1) == "30° 03.0′ W");
}

TEST_CASE("values of the resolved plan", "[report]") {
  CHECK(plain_value("\"depth.tif\"") == "depth.tif");
  CHECK(plain_value("6") == "6");
  CHECK(plain_value("[1,2]") == "[1,2]");
  Plan plan;
  plan.keys = {{"depth.file", "\"depth.tif\"", true, ""}};
  CHECK(key_value(plan, "depth.file") == "depth.tif");
  CHECK(key_value(plan, "depth.unit") == "");
}

}  // namespace
}  // namespace tidelot::page
