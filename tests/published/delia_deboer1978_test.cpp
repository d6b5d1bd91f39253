// SPDX-License-Identifier: Apache-2.0
// D'Elia & DeBoer 1978, J. Phycol. 14:266: nitrogen uptake of G. foliifera (= tikvahiae). The
// constants are from memory; the values were computed independently from V = Vmax S/(K + S).
#include <array>
#include <catch2/catch.hpp>

#include "tidelot/growth/model.hpp"
#include "tidelot/plan/crop_profile.hpp"

using namespace tidelot;

namespace {

AlgaConstants alga() { return alga_constants(built_in_crop("warm-red-alga")); }

/// Water so fast that the boundary layer does not matter, m/s.
constexpr double kFast = 10.0;

/// umol g-1 h-1 that are so many g N/g DW a day.
double hourly(double per_day) { return per_day / (14.007e-6 * 24.0); }

}  // namespace

TEST_CASE("G-07 ammonium and nitrate uptake, computed independently, to 0.001") {
  constexpr std::array kSupply{0.5, 1.0, 2.0, 5.0, 10.0, 20.0};
  constexpr std::array kAmmonium{5.667, 9.154, 13.222, 18.030, 20.517, 22.037};
  constexpr std::array kNitrate{1.617, 2.771, 4.311, 6.467, 7.760, 8.622};
  const AlgaConstants c = alga();
  for (std::size_t i = 0; i < kSupply.size(); ++i) {
    CHECK(michaelis_menten(kSupply[i], c.vmax_nh4, c.k_nh4) == Approx(kAmmonium[i]).margin(1e-3));
    CHECK(michaelis_menten(kSupply[i], c.vmax_no3, c.k_no3) == Approx(kNitrate[i]).margin(1e-3));
    CHECK(hourly(uptake_rate(kSupply[i], 0.0, kFast, 20.0, c)) ==
          Approx(kAmmonium[i]).margin(1e-3));
    CHECK(hourly(uptake_rate(0.0, kSupply[i], kFast, 20.0, c)) == Approx(kNitrate[i]).margin(1e-3));
  }
  CHECK(michaelis_menten(c.k_nh4, c.vmax_nh4, c.k_nh4) == c.vmax_nh4 / 2.0);
}

TEST_CASE("G-07 nitrate uptake is strongly reduced above 5 umol/L of ammonium, from memory") {
  const AlgaConstants c = alga();
  const double nitrate_alone = uptake_rate(0.0, 10.0, kFast, 20.0, c);
  const double beside_ammonium =
      uptake_rate(6.0, 10.0, kFast, 20.0, c) - uptake_rate(6.0, 0.0, kFast, 20.0, c);
  CHECK(beside_ammonium < 0.3 * nitrate_alone);
}

TEST_CASE("G-08 the nitrogen that growth takes, computed independently, to 0.001") {
  CHECK(hourly(0.05 * 0.030) == Approx(4.462).margin(1e-3));
  CHECK(hourly(0.10 * 0.035) == Approx(10.411).margin(1e-3));
  // so 1 to 2 umol/L of ammonium already feed moderate growth
  const AlgaConstants c = alga();
  CHECK(uptake_rate(1.0, 0.0, kFast, 20.0, c) > 0.05 * 0.030);
  CHECK(uptake_rate(2.0, 0.0, kFast, 20.0, c) > 0.10 * 0.035);
}

TEST_CASE("K-10 boundary layer 1 - exp(-U/0.03), computed independently, to 1e-4") {
  const AlgaConstants c = alga();
  struct Point {
    double current, factor;
  };
  for (const Point& p :
       {Point{0.01, 0.2835}, {0.03, 0.6321}, {0.06, 0.8647}, {0.10, 0.9643}, {0.15, 0.9933}}) {
    CHECK(uptake_rate(2.0, 0.0, p.current, 20.0, c) / uptake_rate(2.0, 0.0, kFast, 20.0, c) ==
          Approx(p.factor).margin(1e-4));
  }
}
