// SPDX-License-Identifier: Apache-2.0
// Linear wave theory: Shore Protection Manual 1984, table C-1 (three entries of it from memory),
// the other digits computed from (d/L) tanh(2 pi d/L) = d/L0, independently of this program.
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "tidelot/criteria/waves.hpp"

using namespace tidelot;

namespace {

constexpr double kPi = std::numbers::pi;

/// The depth of a wave of 10 s for a d/L0.
double depth_of(double ratio) { return ratio * 9.81 * 100.0 / (2.0 * kPi); }

}  // namespace

TEST_CASE("W-10: table C-1") {
  struct Row {
    double d_l0, d_l, tanh_kd, n, shoaling;
  };
  for (const Row& row :
       {Row{0.005, 0.02836, 0.1763, 0.9896, 1.6928}, Row{0.01, 0.04032, 0.2480, 0.9792, 1.4348},
        Row{0.02, 0.05763, 0.3471, 0.9588, 1.2258}, Row{0.05, 0.09415, 0.5310, 0.8999, 1.0229},
        Row{0.10, 0.14098, 0.7093, 0.8102, 0.9327}, Row{0.15, 0.18330, 0.8183, 0.7325, 0.9133},
        Row{0.20, 0.22512, 0.8884, 0.6677, 0.9181}, Row{0.30, 0.31212, 0.9612, 0.5777, 0.9489},
        Row{0.50, 0.50183, 0.9964, 0.5115, 0.9905}, Row{1.00, 1.00001, 1.0000, 0.5000, 1.0000}}) {
    CAPTURE(row.d_l0);
    const double depth = depth_of(row.d_l0);
    const double length = wave_length_m(10.0, depth);
    CHECK(depth / length == Approx(row.d_l).margin(2e-5));
    CHECK(std::tanh(2.0 * kPi * depth / length) == Approx(row.tanh_kd).margin(6e-5));
    CHECK(group_ratio(10.0, depth) == Approx(row.n).margin(6e-5));
    CHECK(shoaling(10.0, depth) == Approx(row.shoaling).margin(6e-5));
  }
}

TEST_CASE("W-11: length, speed and group speed") {
  const auto check = [](double period, double depth, double length, double speed, double group) {
    CHECK(wave_length_m(period, depth) == Approx(length).margin(2e-4));
    CHECK(wave_length_m(period, depth) / period == Approx(speed).margin(1e-4));
    CHECK(wave_length_m(period, depth) / period * group_ratio(period, depth) ==
          Approx(group).margin(1e-4));
  };
  check(4, 3, 18.9626, 4.7406, 3.6858);
  check(6, 5, 38.0897, 6.3483, 5.2633);
  check(8, 10, 70.8984, 8.8623, 7.1795);
}

TEST_CASE("W-12: speed of the water at the line and at the bed, and drag on a line") {
  const SeaState sea{1.0, 4.0};
  CHECK(orbital_speed(sea, 8.0, 1.0) == Approx(0.63179).margin(1e-5));
  CHECK(orbital_speed(sea, 8.0, 8.0) == Approx(0.20009).margin(1e-5));
  CHECK(line_drag_n_per_m(0.5, 0.1, 1.2) == Approx(15.375).margin(1e-9));
}

TEST_CASE("W-12: in very deep water the speed at the bed is 0 and at the surface pi H / T") {
  const SeaState sea{1.0, 3.0};
  CHECK(orbital_speed(sea, 5000.0, 5000.0) == Approx(0.0).margin(1e-12));
  CHECK(orbital_speed(sea, 5000.0, 0.0) == Approx(kPi / 3.0));
}

TEST_CASE("W-10: every depth and period satisfies the dispersion relation") {
  for (double period = 0.5; period < 20.0; period *= 1.3) {
    for (double depth = 0.01; depth < 3000.0; depth *= 1.7) {
      CAPTURE(period, depth);
      const double length = wave_length_m(period, depth);
      const double deep = 9.81 * period * period / (2.0 * kPi);
      CHECK(length == Approx(deep * std::tanh(2.0 * kPi * depth / length)).epsilon(1e-10));
    }
  }
}
