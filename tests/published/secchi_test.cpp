// SPDX-License-Identifier: Apache-2.0
// Attenuation from the Secchi depth by four published relations, all coefficients from memory:
// Poole & Atkins 1929 (1.7/Z), Holmes 1970 (1.44/Z, turbid coast), Devlin et al. 2008 (Est. Coast.
// Shelf Sci. 79:429), Montes-Hugo & Alvarez-Borrego 2005 (Cienc. Mar. 31(4), coastal lagoon). The
// values were computed independently, by hand from the printed relations.
#include <catch2/catch.hpp>
#include <cmath>

#include "tidelot/layers/layer_set.hpp"

using namespace tidelot;

TEST_CASE("L-11 Kd from the Secchi depth, computed independently, to 0.001") {
  struct Row {
    double secchi, poole_atkins, holmes, devlin, montes_hugo;
  };
  for (const Row& row : {Row{0.5, 3.400, 2.880, 2.628, 3.307}, Row{1, 1.700, 1.440, 1.288, 1.480},
                         Row{2, 0.850, 0.720, 0.631, 0.662}, Row{3, 0.567, 0.480, 0.416, 0.414},
                         Row{5, 0.340, 0.288, 0.246, 0.229}, Row{10, 0.170, 0.144, 0.120, 0.102}}) {
    INFO(row.secchi);
    const double z = row.secchi;
    CHECK(kd_from_secchi(z, SecchiRelation::poole_atkins_1929) ==
          Approx(row.poole_atkins).margin(1e-3));
    CHECK(kd_from_secchi(z, SecchiRelation::holmes_1970) == Approx(row.holmes).margin(1e-3));
    CHECK(kd_from_secchi(z, SecchiRelation::devlin_2008) == Approx(row.devlin).margin(1e-3));
    CHECK(kd_from_secchi(z, SecchiRelation::montes_hugo_2005) ==
          Approx(row.montes_hugo).margin(1e-3));
    CHECK(kd_from_secchi(z) == Approx(z < 5 ? row.holmes : row.poole_atkins).margin(1e-3));
  }
}

TEST_CASE("a Secchi depth of nothing has no attenuation") {
  CHECK(std::isnan(kd_from_secchi(0.0, SecchiRelation::devlin_2008)));
  CHECK(std::isnan(kd_from_secchi(-1.0)));
}
