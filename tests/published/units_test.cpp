// SPDX-License-Identifier: Apache-2.0
// Unit conversions against the definitions that others publish.
#include "tidelot/core/units.hpp"

#include <catch2/catch.hpp>
#include <string_view>

using tidelot::Quantity;

namespace {

double convert(Quantity quantity, std::string_view unit, double value) {
  const auto conversion = tidelot::conversion(quantity, unit);
  CAPTURE(unit);
  REQUIRE(conversion.has_value());
  return (*conversion)(value);
}

}  // namespace

TEST_CASE("Q-01: dissolved nitrogen by mass and by amount") {
  // Standard atomic weight of N 14.007 (IUPAC 2021, abridged); the rest is arithmetic.
  CHECK(convert(Quantity::nitrogen, "mg/L", 0.14007) == Approx(10.0).epsilon(1e-12));
  CHECK(convert(Quantity::nitrogen, "mg/L as N", 1.0) == Approx(71.3929).margin(5e-5));
  CHECK(convert(Quantity::nitrogen, "ug/L", 140.07) == Approx(10.0).epsilon(1e-12));
  CHECK(convert(Quantity::nitrogen, "g/m3", 0.14007) == Approx(10.0).epsilon(1e-12));
  // Of an ion: mg of nitrogen in a milligram of it, by the molar masses 62.005, 18.039 and 46.006.
  const double per_mg = convert(Quantity::nitrogen, "mg/L as N", 1.0);
  CHECK(convert(Quantity::nitrogen, "mg/L as NO3", 1.0) / per_mg == Approx(0.225901).margin(1e-6));
  CHECK(convert(Quantity::nitrogen, "mg/L as NH4", 1.0) / per_mg == Approx(0.776484).margin(1e-6));
  CHECK(convert(Quantity::nitrogen, "mg/L as NO2", 1.0) / per_mg == Approx(0.304460).margin(1e-6));
  CHECK(convert(Quantity::nitrogen, "mol/kg", 1e-5) == Approx(10.0).epsilon(1e-12));
  CHECK(tidelot::conversion(Quantity::nitrogen, "umol/kg")->per_mass);
  // A litre is a thousandth of a cubic metre: udunits2 2.2.28 gives 1 as well.
  CHECK(convert(Quantity::nitrogen, "mmol/m3", 1.0) == 1.0);
  CHECK(convert(Quantity::nitrogen, "mol m-3", 0.01) == Approx(10.0).epsilon(1e-12));
}

TEST_CASE("lengths: foot, US survey foot, fathom") {
  // International yard and pound agreement (1959): 1 ft = 0.3048 m, exact; a fathom is 6 ft.
  // US survey foot: 1200/3937 m, exact (Mendenhall order, 1893).
  CHECK(convert(Quantity::depth, "ft", 1.0) == 0.3048);
  CHECK(convert(Quantity::depth, "fathom", 1.0) == Approx(1.8288).epsilon(1e-15));
  CHECK(convert(Quantity::depth, "us-ft", 3937.0) == Approx(1200.0).epsilon(1e-15));
  CHECK(convert(Quantity::depth, "us-ft", 1e6) - convert(Quantity::depth, "ft", 1e6) ==
        Approx(0.6096).margin(1e-4));  // 2 parts in a million
}

TEST_CASE("speeds: knot") {
  // 1 nautical mile = 1852 m, exact (First International Extraordinary Hydrographic Conference,
  // 1929), an hour 3600 s.
  CHECK(convert(Quantity::current, "knot", 1.0) == Approx(0.514444).margin(5e-7));
  CHECK(convert(Quantity::current, "kn", 3600.0) == Approx(1852.0).epsilon(1e-15));
}

TEST_CASE("temperatures: kelvin and Fahrenheit at the ice and the boiling point") {
  // ITS-90: 0 degC = 273.15 K; 32 degF and 212 degF are the classic fixed points.
  CHECK(convert(Quantity::temperature, "K", 273.15) == 0.0);
  CHECK(convert(Quantity::temperature, "degF", 32.0) == Approx(0.0).margin(1e-12));
  CHECK(convert(Quantity::temperature, "degF", 212.0) == Approx(100.0).epsilon(1e-14));
  CHECK(convert(Quantity::temperature, "degF", -40.0) == Approx(-40.0).epsilon(1e-14));
}

TEST_CASE("radiation: a watt per square metre over a day") {
  // FAO Irrigation and Drainage Paper 56 (1998), table 3: 1 W m-2 = 0.0864 MJ m-2 day-1.
  CHECK(convert(Quantity::radiation, "W m-2", 1.0) == Approx(0.0864).epsilon(1e-15));
  CHECK(convert(Quantity::radiation, "W/m2", 11.574) == Approx(1.0).margin(1e-5));
}

TEST_CASE("Q-02: masses and areas of the two systems") {
  // International yard and pound agreement (1959): 1 lb = 0.45359237 kg, exact; an acre is 43,560
  // square feet, a short ton 2,000 lb. The rest is arithmetic.
  using namespace tidelot;
  CHECK(kAcreHa * 1e4 == Approx(4046.8564224).epsilon(1e-12));
  CHECK(kAcreHa * 1e4 == Approx(43'560.0 * kFootM * kFootM).epsilon(1e-12));
  CHECK(1.0 / kAcreHa == Approx(2.471054).margin(5e-7));
  CHECK(kAcreHa / kPoundKg == Approx(0.892179).margin(5e-7));    // kg/ha to lb/acre
  CHECK(kPoundKg / kAcreHa == Approx(1.120851).margin(5e-7));    // lb/acre to kg/ha
  CHECK(kShortTonT / kAcreHa == Approx(2.241702).margin(5e-7));  // short tons/acre to t/ha
  CHECK(1.0 / kPoundKg == Approx(2.204623).margin(5e-7));
}
