// SPDX-License-Identifier: Apache-2.0
// Transport and uptake in series: the quadratic of Hill & Whittingham 1955, Photosynthesis, as used
// for water plants by Sanford & Crawford 2000, Limnol. Oceanogr. 45:1180 (both from memory). The
// figures were computed independently from the printed equation.
#include <catch2/catch.hpp>

#include "tidelot/growth/mass_transfer.hpp"
#include "tidelot/growth/model.hpp"

using namespace tidelot;

TEST_CASE("N-03: uptake at 5 umol/L, Vmax 20, Ks 2, by supply") {
  CHECK(co_limited(5.0, 20.0, 2.0, 0.5) == Approx(2.365838).margin(5e-7));
  CHECK(co_limited(5.0, 20.0, 2.0, 2.0) == Approx(7.566019).margin(5e-7));
  CHECK(co_limited(5.0, 20.0, 2.0, 10.0) == Approx(12.984379).margin(5e-7));
  CHECK(co_limited(5.0, 20.0, 2.0, 1e12) == Approx(14.285714).margin(5e-7));
}

TEST_CASE("N-03: the limits are those of supply alone and of the crop alone") {
  CHECK(co_limited(5.0, 20.0, 2.0, 0.0) == 0.0);
  CHECK(co_limited(0.0, 20.0, 2.0, 3.0) == 0.0);
  CHECK(co_limited(5.0, 0.0, 2.0, 0.0) == 0.0);
  CHECK(co_limited(5.0, 1e9, 2.0, 0.5) == Approx(2.5).epsilon(1e-6));  // all that arrives
  for (const double s : {0.01, 0.5, 4.0, 60.0}) {
    for (const double h : {1e-3, 0.1, 3.0, 40.0}) {
      const double v = co_limited(s, 20.0, 2.0, h);
      CAPTURE(s, h);
      CHECK(v < h * s);
      CHECK(v < michaelis_menten(s, 20.0, 2.0));
      // At the surface the water holds s - v/h, and the crop takes up there what arrives.
      CHECK(michaelis_menten(s - v / h, 20.0, 2.0) == Approx(v).epsilon(1e-9));
    }
  }
}
