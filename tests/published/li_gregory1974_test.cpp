// SPDX-License-Identifier: Apache-2.0
// Diffusivities of ammonium and nitrate: Li & Gregory 1974, Geochim. Cosmochim. Acta 38:703, as the
// straight lines of Boudreau 1997, Diagenetic Models (from memory). The figures at 25 degC were
// computed from those lines.
#include <catch2/catch.hpp>

#include "tidelot/growth/mass_transfer.hpp"

using namespace tidelot;

TEST_CASE("diffusivities at 25 degC") {
  CHECK(diffusivity(Nutrient::nitrate, 25.0) == Approx(1.920e-9).epsilon(1e-9));
  CHECK(diffusivity(Nutrient::ammonium, 25.0) == Approx(1.9825e-9).epsilon(1e-9));
}
