// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/units.hpp"

#include <array>
#include <catch2/catch.hpp>

using namespace tidelot;

namespace {

constexpr std::array kAll{Quantity::depth,       Quantity::temperature, Quantity::salinity,
                          Quantity::attenuation, Quantity::secchi,      Quantity::turbidity,
                          Quantity::nitrogen,    Quantity::current,     Quantity::radiation};

double converted(Quantity quantity, std::string_view unit, double value) {
  const auto found = conversion(quantity, unit);
  INFO(unit);
  REQUIRE(found);
  return (*found)(value);
}

}  // namespace

TEST_CASE("The canonical unit of each quantity changes nothing") {
  for (const Quantity quantity : kAll) {
    CHECK(converted(quantity, canonical_unit(quantity), 12.5) == 12.5);
  }
}

TEST_CASE("Every unit that a message lists is understood") {
  for (const Quantity quantity : kAll) {
    CHECK_FALSE(known_units(quantity).empty());
    for (const std::string& unit : known_units(quantity)) {
      INFO(name(quantity) << " in " << unit);
      CHECK(conversion(quantity, unit));
    }
  }
}

TEST_CASE("Lengths, international and survey feet apart") {
  CHECK(converted(Quantity::depth, "ft", 1000) == Approx(304.8).epsilon(1e-15));
  CHECK(converted(Quantity::depth, "us-ft", 3937) == Approx(1200).epsilon(1e-15));
  CHECK(converted(Quantity::depth, "fathom", 10) == Approx(18.288).epsilon(1e-15));
  CHECK(converted(Quantity::secchi, "cm", 150) == Approx(1.5).epsilon(1e-15));
}

TEST_CASE("Temperatures") {
  CHECK(converted(Quantity::temperature, "K", 273.15) == Approx(0).margin(1e-12));
  CHECK(converted(Quantity::temperature, "kelvin", 293.15) == Approx(20).epsilon(1e-12));
  CHECK(converted(Quantity::temperature, "degF", 212) == Approx(100).epsilon(1e-12));
  CHECK(converted(Quantity::temperature, "degF", 32) == Approx(0).margin(1e-12));
  CHECK(converted(Quantity::temperature,
                  "\xC2\xB0"
                  "C",
                  20) == 20);
}

TEST_CASE("Nitrogen by amount and by mass of nitrogen: 14.007 g/mol") {
  CHECK(converted(Quantity::nitrogen, "mg/L", 0.14007) == Approx(10).epsilon(1e-12));
  CHECK(converted(Quantity::nitrogen, "mg/L as N", 1) == Approx(71.3929).epsilon(1e-6));
  CHECK(converted(Quantity::nitrogen, "ug/L", 14.007) == Approx(1).epsilon(1e-12));
  CHECK(converted(Quantity::nitrogen, "mmol m-3", 7) == 7);
  CHECK(converted(Quantity::nitrogen, "mol m-3", 0.001) == Approx(1).epsilon(1e-15));
  CHECK(converted(Quantity::nitrogen, "kg m-3", 0.014007) == Approx(1000).epsilon(1e-12));
}

TEST_CASE("Both code points of the micro sign are read") {
  CHECK(conversion(Quantity::nitrogen, "\xC2\xB5mol/L"));
  CHECK(conversion(Quantity::nitrogen, "\xCE\xBCmol/L"));
}

TEST_CASE("Speeds and radiation") {
  CHECK(converted(Quantity::current, "knot", 1) == Approx(1852.0 / 3600.0).epsilon(1e-15));
  CHECK(converted(Quantity::current, "cm/s", 15) == Approx(0.15).epsilon(1e-15));
  CHECK(converted(Quantity::current, "m s-1", 0.3) == 0.3);
  CHECK(converted(Quantity::radiation, "W m-2", 200) == Approx(17.28).epsilon(1e-12));
  CHECK(converted(Quantity::attenuation, "1/ft", 0.3048) == Approx(1).epsilon(1e-12));
}

TEST_CASE("Case and blanks do not matter, but k is not kelvin") {
  CHECK(conversion(Quantity::temperature, " DEG C "));
  CHECK(conversion(Quantity::nitrogen, "UMOL / l"));
  CHECK(conversion(Quantity::salinity, "PSU"));
  CHECK_FALSE(conversion(Quantity::temperature, "k"));
}

TEST_CASE("A unit of another quantity, of nitrate or of nothing is not taken") {
  CHECK_FALSE(conversion(Quantity::depth, "degC"));
  CHECK_FALSE(conversion(Quantity::temperature, "m"));
  CHECK_FALSE(conversion(Quantity::nitrogen, "mg/L NO3"));
  CHECK_FALSE(conversion(Quantity::nitrogen, "1"));
  CHECK_FALSE(conversion(Quantity::depth, ""));
  CHECK_FALSE(conversion(Quantity::current, "   "));
}

TEST_CASE("What is plausible has room, and ends before a mistaken unit") {
  for (const Quantity quantity : kAll) {
    const PlausibleRange range = plausible_range(quantity);
    CHECK(range.low < range.high);
  }
  CHECK(plausible_range(Quantity::temperature).high < 100.0);  // 293 K read as degC is not believed
  CHECK(plausible_range(Quantity::temperature).low < -1.9);    // sea water freezes at -1.8
  CHECK(plausible_range(Quantity::current).high < 15.0);       // 15 cm/s read as m/s
}

TEST_CASE("Every quantity has a name of its own") {
  for (std::size_t i = 0; i < kAll.size(); ++i) {
    CHECK_FALSE(name(kAll[i]).empty());
    for (std::size_t j = 0; j < i; ++j) {
      CHECK(name(kAll[i]) != name(kAll[j]));
    }
  }
}
