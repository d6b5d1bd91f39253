// SPDX-License-Identifier: Apache-2.0
// Droop's quota growth, mu = mu_inf (1 - Qmin/Q), and its form normalised to 1 at Qmax. Values
// computed independently from the equations.
#include <array>
#include <catch2/catch.hpp>

#include "tidelot/growth/model.hpp"
#include "tidelot/plan/crop_profile.hpp"

using namespace tidelot;

TEST_CASE("N-01 quota factor, computed independently, to 1e-6") {
  CHECK(quota_factor(2.0, 0.8, 4.5) == Approx(0.729730).margin(1e-6));
  CHECK(quota_factor(2.0, 0.8, 4.5) * (1.0 - 0.8 / 4.5) == Approx(0.600).margin(1e-12));
  CHECK(quota_factor(0.8, 0.8, 4.5) == 0.0);
  CHECK(quota_factor(4.5, 0.8, 4.5) == Approx(1.0).epsilon(1e-14));
}

TEST_CASE("N-02 steady reserve and growth against ammonium, computed independently, to 1e-5") {
  constexpr std::array kSupply{0.2, 0.5, 1.0, 2.0, 5.0, 10.0};
  constexpr std::array kReserve{0.01417, 0.01911, 0.02315, 0.02651, 0.02936, 0.03051};
  constexpr std::array kGrowth{0.05226, 0.06976, 0.07852, 0.08379, 0.08730, 0.08853};
  const AlgaConstants c = alga_constants(built_in_crop("warm-red-alga"));
  const double mu = 0.12 * (1.0 - c.q_min / c.q_max);
  for (std::size_t i = 0; i < kSupply.size(); ++i) {
    double low = c.q_min;
    double high = c.q_max;
    for (int step = 0; step < 60; ++step) {  // uptake falls and demand rises with the reserve
      const double q = (low + high) / 2.0;
      const double taken =
          uptake_rate(kSupply[i], 0.0, 10.0, 20.0, c) * (c.q_max - q) / (c.q_max - c.q_min);
      (taken > mu * quota_factor(q, c.q_min, c.q_max) * q ? low : high) = q;
    }
    CHECK(low == Approx(kReserve[i]).margin(1e-5));
    CHECK(mu * quota_factor(low, c.q_min, c.q_max) == Approx(kGrowth[i]).margin(1e-5));
  }
}
