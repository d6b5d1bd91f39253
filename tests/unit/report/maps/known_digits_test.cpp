// SPDX-License-Identifier: Apache-2.0
#include "report/maps/known_digits.hpp"

#include <catch2/catch.hpp>
#include <cmath>

namespace tidelot::page {
namespace {

TEST_CASE("a figure's last digit is worth at most a quarter of its spread", "[report]") {
  CHECK(known_decimals(3.57, Band{2.25, 4.48}) == 1);  // 2.23 / 4 = 0.56: tenths
  CHECK(known_decimals(3.57, Band{3.30, 3.70}) == 1);  // 0.4 / 4 = 0.1: tenths
  CHECK(known_decimals(3.57, Band{3.40, 3.70}) == 2);  // 0.075: hundredths
  CHECK(known_decimals(3570.0, Band{2250.0, 4480.0}) == -2);
  CHECK(known_decimals(35.0, Band{10.0, 60.0}) == -1);
}

TEST_CASE("without a spread a figure has two figures", "[report]") {
  CHECK(known_decimals(3.57, std::nullopt) == 1);
  CHECK(known_decimals(0.0357, std::nullopt) == 3);
  CHECK(known_decimals(1234.0, std::nullopt) == -2);
  CHECK(known_decimals(0.0, std::nullopt) == 0);
  CHECK(known_decimals(3.57, Band{3.57, 3.57}) == 1);
}

TEST_CASE("tens and hundreds are rounded, too", "[report]") {
  CHECK(rounded_to(1234.0, -2) == "1,200");
  CHECK(rounded_to(-1270.0, -2) == "-1,300");
  CHECK(rounded_to(-40.0, -2) == "0");
  CHECK(rounded_to(3.57, 1) == "3.6");
}

TEST_CASE("both units, each with its own digits", "[report]") {
  CHECK(known_nitrogen(3.57, Band{2.25, 4.48}, Units::both) ==
        "3.6 kg (2.2 to 4.5), or 8 lb (5 to 10)");
  CHECK(known_nitrogen(3.57, Band{2.25, 4.48}, Units::metric) == "3.6 kg (2.2 to 4.5)");
  CHECK(known_nitrogen(3.57, std::nullopt, Units::us) == "7.9 lb");
  CHECK(known_percent(0.00035, Band{0.00022, 0.00043}) == "0.035 % (0.022 to 0.043)");
  CHECK(known_crop(std::nan(""), std::nullopt, Units::both) == "not known");
}

}  // namespace
}  // namespace tidelot::page
