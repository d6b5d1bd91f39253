// SPDX-License-Identifier: Apache-2.0
// Mean transfer to a cylinder across the current: Churchill & Bernstein 1977, J. Heat Transfer
// 99:300, for heat (from memory). The figures were computed independently from the printed
// equation, to the digits given.
#include <catch2/catch.hpp>

#include "tidelot/growth/mass_transfer.hpp"

using namespace tidelot;

namespace {

constexpr double kWidth = 1.5e-3;
constexpr double kViscosity = 1.05e-6;
constexpr double kDiffusivity = 1.7e-9;

struct Row {
  double current, sherwood, transfer;
};
constexpr Row kRows[] = {{0.01, 20.25, 2.295e-5}, {0.05, 45.04, 5.105e-5}, {0.2, 90.34, 1.024e-4}};

}  // namespace

TEST_CASE("N-05: a branch of 1.5 mm at 1, 5 and 20 cm/s") {
  for (const Row& row : kRows) {
    CAPTURE(row.current);
    const double k = branch_transfer({row.current, kWidth, kViscosity}, kDiffusivity);
    CHECK(k == Approx(row.transfer).epsilon(5e-4));
    CHECK(k * kWidth / kDiffusivity == Approx(row.sherwood).margin(0.006));
  }
}

TEST_CASE("Churchill & Bernstein: still water still hands on a little, Sh = 0.3") {
  const double k = branch_transfer({0.0, kWidth, kViscosity}, kDiffusivity);
  CHECK(k * kWidth / kDiffusivity == Approx(0.3));
}
