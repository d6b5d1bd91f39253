// SPDX-License-Identifier: Apache-2.0
// Attenuation from the Secchi depth: 1.44/Z (Holmes 1970, turbid coast) below 5 m, 1.7/Z (Poole &
// Atkins 1929) from there on; both coefficients from memory.
#include <catch2/catch.hpp>

#include "tidelot/layers/layer_set.hpp"

using namespace tidelot;

TEST_CASE("L-11 Kd from the Secchi depth, computed independently, to 0.001") {
  struct Row {
    double secchi, kd;
  };
  for (const Row& row : {Row{0.5, 2.880}, Row{1, 1.440}, Row{2, 0.720}, Row{3, 0.480},
                         Row{5, 0.340}, Row{10, 0.170}}) {
    CHECK(kd_from_secchi(row.secchi) == Approx(row.kd).margin(1e-3));
  }
}
