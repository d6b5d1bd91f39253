// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/mass_transfer.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "growth/temperature_fit.hpp"
#include "support/random_seasons.hpp"
#include "tidelot/growth/farm.hpp"
#include "tidelot/growth/kelp.hpp"

using namespace tidelot;
using namespace tidelot::random_seasons;

namespace {

AlgaConstants branched() {
  return alga_constants(built_in_crop("warm-red-alga"), BoundaryLayer::mass_transfer);
}
KelpConstants bladed() {
  return kelp_constants(built_in_crop("sugar-kelp"), BoundaryLayer::mass_transfer);
}

}  // namespace

TEST_CASE("faster or warmer water never hands on less; the crop never takes more than arrives") {
  const Branch branch = *branched().branch;
  for (const Nutrient nutrient : {Nutrient::ammonium, Nutrient::nitrate}) {
    double before = 0.0;
    for (double current = 0.0; current < 3.0; current += 0.01) {
      const double h = branch_supply(nutrient, current, 20.0, branch);
      CHECK(h > before);
      CHECK(branch_supply(nutrient, current, 25.0, branch) > h);
      before = h;
    }
  }
}

TEST_CASE("temperatures beyond what was measured are held") {
  CHECK(diffusivity(Nutrient::nitrate, -40.0) == diffusivity(Nutrient::nitrate, -4.0));
  CHECK(sea_water_viscosity(90.0) == sea_water_viscosity(45.0));
}

TEST_CASE("a temperature fit passes its function closely") {
  const TemperatureFit fit = temperature_fit(sea_water_viscosity);
  for (double t = kFitColdest; t <= kFitWarmest; t += 0.37) {
    const double x = (t - 20.5) / 24.5;
    double value = 0.0;
    for (auto c = fit.rbegin(); c != fit.rend(); ++c) {
      value = value * x + *c;
    }
    CHECK(value == Approx(sea_water_viscosity(t)).epsilon(1e-4));
  }
}

TEST_CASE("uptake by mass transfer: less than in fast water, more with the current, to its limit") {
  const AlgaConstants c = branched();
  AlgaConstants still = c;
  still.branch.reset();
  const double fast = uptake_rate(2.0, 3.0, 1e9, 22.0, still);
  double before = 0.0;
  for (const double current : {0.0, 0.01, 0.05, 0.2, 1.0}) {
    const double v = uptake_rate(2.0, 3.0, current, 22.0, c);
    CHECK(v > before);
    CHECK(v < fast);
    before = v;
  }
  // A thousand times the surface: diffusion holds nothing back.
  AlgaConstants feathery = c;
  feathery.branch->surface_m2_per_g *= 1e6;
  CHECK(uptake_rate(2.0, 3.0, 0.1, 22.0, feathery) == Approx(fast).epsilon(1e-4));
}

TEST_CASE("uptake by mass transfer never falls as nitrogen rises: the farm's box needs it") {
  const AlgaConstants c = branched();
  for (const double share : {0.0, 0.2, 0.4, 0.8, 1.0}) {
    for (const double current : {0.002, 0.02, 0.1, 0.5}) {
      double before = -1.0;
      for (double n = 0.0; n < 100.0; n = n * 1.05 + 0.01) {
        const double v = uptake_rate(share * n, (1.0 - share) * n, current, 20.0, c);
        CAPTURE(share, current, n);
        CHECK(v >= before);
        before = v;
      }
    }
  }
}

TEST_CASE("the tile agrees with the reference under mass transfer, to 5e-6") {
  std::mt19937 random(41);
  for (unsigned tile = 0; tile < 10; ++tile) {
    const double worst =
        worst_error(random_tile(300, 300 + tile), random_husbandry(random), branched());
    INFO("worst " << worst);
    REQUIRE(worst < 5e-6);
  }
}

TEST_CASE("under mass transfer a cell's season is the same in any batch") {
  const KernelForcing f = random_tile(300, 42);
  const KernelResult whole = grow_tile(f, Husbandry{}, branched());
  for (const std::size_t i : {std::size_t{0}, std::size_t{129}, std::size_t{299}}) {
    const KernelResult one = grow_tile(chosen(f, std::array{i}), Husbandry{}, branched());
    CHECK(one.yield_g_per_m[0] == whole.yield_g_per_m[i]);
    CHECK(one.nitrogen_g_per_m[0] == whole.nitrogen_g_per_m[i]);
  }
}

TEST_CASE("kelp: mass transfer to the blade holds uptake back, and less in faster water") {
  const KelpConstants k = bladed();
  const double fast = k.j_max * 5.0 / (k.k_x + 5.0);
  CHECK(kelp::uptake(5.0, 0.0, 10.0, k.n_min, k) == 0.0);
  double before = 0.0;
  for (const double current : {0.01, 0.05, 0.2, 1.0}) {
    const double j = kelp::uptake(5.0, current, 10.0, k.n_min, k);
    CHECK(j > before);
    CHECK(j < fast);
    before = j;
  }
  CHECK(kelp::uptake(5.0, 1e7, 10.0, k.n_min, k) == Approx(fast).epsilon(1e-3));
}
