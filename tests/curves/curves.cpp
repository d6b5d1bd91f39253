// SPDX-License-Identifier: Apache-2.0
// Prints the response curves of the built-in crops as CSV (crop,curve,x,y): what figure.py draws
// for docs/science. Written anew by scripts/science-figures.
#include <fmt/format.h>

#include <functional>
#include <string_view>

#include "tidelot/growth/kelp.hpp"
#include "tidelot/growth/model.hpp"
#include "tidelot/plan/crop_profile.hpp"

namespace {

using namespace tidelot;

constexpr int kPoints = 120;
constexpr double kCurrent = 0.15;  // m/s
constexpr double kNh4Share = 0.4;

void print_curve(std::string_view crop, std::string_view curve, double low, double high,
                 const std::function<double(double)>& of) {
  for (int i = 0; i <= kPoints; ++i) {
    const double x = low + (high - low) * i / kPoints;
    fmt::print("{},{},{:.6g},{:.6g}\n", crop, curve, x, of(x));
  }
}

/// Light factor of a freshly stocked line at 1 m, on a day of 14 h, at Kd 0.4.
double alga_light(double par_mol, const AlgaConstants& c) {
  const DayForcing day{.temperature = 22.0,
                       .salinity = 30.0,
                       .attenuation = 0.4,
                       .nitrogen = 10.0,
                       .current = kCurrent,
                       .par_mol = par_mol,
                       .day_length_h = 14.0};
  return grow_season({&day, 1}, Husbandry{}, c).days.front().f_light;
}

void print_alga() {
  const AlgaConstants c = alga_constants(built_in_crop("warm-red-alga"));
  print_curve("alga", "temperature", 0, 40,
              [&](double t) { return ctmi(t, c.t_min, c.t_opt, c.t_max); });
  print_curve("alga", "salinity", 0, 50, [&](double s) { return c.salinity(s); });
  print_curve("alga", "light", 0, 60, [&](double par) { return alga_light(par, c); });
  print_curve("alga", "uptake", 0, 60, [&](double n) {
    return 1e3 * uptake_rate(kNh4Share * n, (1.0 - kNh4Share) * n, kCurrent, 22.0, c);
  });
}

void print_kelp() {
  const KelpConstants k = kelp_constants(built_in_crop("sugar-kelp"));
  const double inhibition = kelp::inhibition(kelp::p_max(8.0, k), k);
  print_curve("kelp", "temperature", 0, 25, [&](double t) { return k.temperature(t); });
  print_curve("kelp", "salinity", 0, 40, [&](double s) { return k.salinity(s); });
  print_curve("kelp", "light", 0, 800,
              [&](double i) { return 1e3 * kelp::photosynthesis(i, inhibition, k); });
  print_curve("kelp", "uptake", 0, 60,
              [&](double no3) { return 1e6 * kelp::uptake(no3, kCurrent, 8.0, k.n_min, k); });
}

}  // namespace

int main() {
  fmt::print("crop,curve,x,y\n");
  print_alga();
  print_kelp();
}
