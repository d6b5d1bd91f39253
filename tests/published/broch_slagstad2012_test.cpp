// SPDX-License-Identifier: Apache-2.0
// Broch & Slagstad 2012, J. Appl. Phycol. 24:759-776 (doi 10.1007/s10811-011-9695-y), and the later
// salinity and current factors of Broch et al. 2019, Front. Mar. Sci. 5:529. The equations and most
// parameters were seen in transcriptions, salinity, K_X and U_0.65 are from memory. Every value
// below was computed from those equations by hand or by a separate script, not by this program; the
// tolerance is half of the last digit written, or as stated.
#include <catch2/catch.hpp>
#include <cmath>
#include <utility>
#include <vector>

#include "tidelot/growth/kelp.hpp"
#include "tidelot/plan/crop_profile.hpp"

using namespace tidelot;

namespace {

const KelpConstants& kelp_2019() {
  static const KelpConstants kKelp = kelp_constants(built_in_crop("sugar-kelp"));
  return kKelp;
}

/// With the current factor of 2012.
KelpConstants kelp_2012() {
  KelpConstants k = kelp_2019();
  k.c1 = 1.0;
  k.c2 = 0.03;
  k.c3 = 0.0;
  return k;
}

using Pairs = std::vector<std::pair<double, double>>;

/// Checks f(x) = y within a tolerance.
template <class Function>
void check_values(const Pairs& pairs, double tolerance, const Function& f) {
  for (const auto& [x, y] : pairs) {
    INFO("at " << x);
    CHECK(f(x) == Approx(y).margin(tolerance));
  }
}

}  // namespace

TEST_CASE("K-01 salinity factor (2019)") {
  check_values({{5, 0.15625}, {10, 0.3125}, {16, 0.5}, {20, 0.72222}, {25, 1}, {30, 1}}, 5e-6,
               [](double s) { return kelp_2019().salinity(s); });
}

TEST_CASE("K-02 temperature factor") {
  check_values({{-1.8, 0.056}, {0, 0.2}, {5, 0.6}, {10, 1}, {15, 1}, {17, 0.5}, {19, 0}, {20, 0}},
               1e-12, [](double t) { return kelp_2019().temperature(t); });
}

TEST_CASE("K-03 area factor") {
  check_values({{0, 0.13850}, {1, 0.13553}, {3, 0.11450}, {6, 0.06991}, {12, 0.03199}, {30, 0.03}},
               1e-5, [](double a) { return kelp::area_factor(a, kelp_2019()); });
}

TEST_CASE("K-04 photoperiod factor") {
  check_values({{-1, 0.3}, {-0.25, 0.725}, {0, 1.15}, {0.25, 1.575}, {1, 2.0}}, 1e-12,
               [](double l) { return kelp::photoperiod_factor(l, kelp_2019()); });
}

TEST_CASE("K-05 erosion, 1/d") {
  const auto erosion = [](double a) { return kelp::erosion(a, kelp_2019()); };
  check_values({{10, 9.025e-6}}, 5e-10, erosion);
  check_values({{30, 7.346e-4}}, 5e-8, erosion);
  check_values({{50, 0.056492}, {60, 0.350803}, {80, 0.977784}}, 5e-7, erosion);
  check_values({{62.80, 0.5}}, 1e-3, erosion);
}

TEST_CASE("K-06 greatest photosynthesis, g C dm-2 h-1") {
  check_values({{0, 6.5145e-4},
                {5, 9.7997e-4},
                {10, 1.1381e-3},
                {12, 1.1746e-3},
                {15, 1.1898e-3},
                {18, 1.1216e-3},
                {20, 1.0084e-3},
                {22, 8.4216e-4}},
               5e-8, [](double t) { return kelp::p_max(t, kelp_2019()); });
}

TEST_CASE("K-07 photosynthesis and inhibition at 12 degC") {
  const KelpConstants& k = kelp_2019();
  const double p_max = kelp::p_max(12.0, k);
  const double inhibition = kelp::inhibition(p_max, k);
  CHECK(inhibition * k.alpha == Approx(6.8996e-8).margin(5e-13));
  check_values(
      {{10, 3.2149e-4}, {50, 9.4132e-4}, {100, 1.1329e-3}, {200, 1.1746e-3}, {500, 1.1565e-3}},
      5e-8, [&](double light) { return kelp::photosynthesis(light, inhibition, k); });
  for (const double t : {-1.0, 4.0, 12.0, 19.0, 25.0}) {
    const double most = kelp::p_max(t, k);
    CHECK(kelp::photosynthesis(k.i_sat, kelp::inhibition(most, k), k) ==
          Approx(most).epsilon(1e-9));
  }
}

TEST_CASE("K-08 weights and contents of a frond of 30 dm2") {
  const KelpConstants& k = kelp_2019();
  const Frond frond{30.0, 0.015, 0.1};
  CHECK(kelp::structural_weight(frond, k) == Approx(18.0).margin(5e-4));
  CHECK(kelp::dry_weight(frond, k) == Approx(22.0413).margin(5e-5));
  CHECK(kelp::wet_weight(frond, k) == Approx(233.3407).margin(5e-5));
  CHECK(kelp::dry_weight(frond, k) / kelp::wet_weight(frond, k) == Approx(0.09446).margin(5e-6));
  CHECK(kelp::total_nitrogen(frond, k) == Approx(0.450).margin(5e-4));
  CHECK(kelp::total_nitrogen(frond, k) / kelp::dry_weight(frond, k) ==
        Approx(0.020416).margin(5e-7));
  CHECK(kelp::total_carbon(frond, k) == Approx(5.40).margin(5e-3));
  CHECK(kelp::total_carbon(frond, k) / kelp::dry_weight(frond, k) == Approx(0.2450).margin(5e-5));
  CHECK(kelp::total_carbon(frond, k) / kelp::total_nitrogen(frond, k) == Approx(12.0).margin(0.05));
}

TEST_CASE("K-09 nitrate uptake (2012) and respiration, g dm-2 h-1") {
  CHECK(kelp::uptake(5.0, 0.1, 12.0, 0.015, kelp_2012()) == Approx(4.37518e-5).margin(5e-11));
  CHECK(kelp::respiration(12.0, kelp_2019()) == Approx(2.8423e-4).margin(5e-9));
  CHECK(kelp::respiration(5.0, kelp_2019()) == Approx(1.0735e-4).margin(5e-9));
}

TEST_CASE("K-10 current factor of 2012 and of 2019") {
  check_values({{0.01, 0.2835}, {0.03, 0.6321}, {0.06, 0.8647}, {0.10, 0.9643}, {0.15, 0.9933}},
               5e-5, [](double u) { return kelp::current_factor(u, kelp_2012()); });
  check_values({{0, 0.28}, {0.02, 0.5384}, {0.045, 0.7351}, {0.1, 0.9220}, {0.3, 0.9991}}, 5e-5,
               [](double u) { return kelp::current_factor(u, kelp_2019()); });
}

TEST_CASE("the greatest growth that can be reached is 0.1511 1/d") {
  const KelpConstants& k = kelp_2019();
  CHECK(kelp::area_factor(0.0, k) * kelp::photoperiod_factor(1.0, k) * (1.0 - k.n_min / k.n_max) ==
        Approx(0.1511).margin(5e-5));
}

TEST_CASE("T_AR follows from the two printed points of respiration") {
  CHECK(std::log(5.429e-4 / 2.785e-4) / (1.0 / 285.0 - 1.0 / 290.0) ==
        Approx(11033.9).margin(0.05));
  CHECK(kelp::respiration(290.0 - 273.15, kelp_2019()) == Approx(5.429e-4).margin(5e-8));
}
