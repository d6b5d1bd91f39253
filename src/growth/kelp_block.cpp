// SPDX-License-Identifier: Apache-2.0
#include "growth/kelp_block.hpp"

#include <cmath>
#include <numbers>

namespace tidelot {
namespace {

constexpr double kLog2E = std::numbers::log2e;
constexpr double kHours = 24.0;

float narrow(double value) { return static_cast<float>(value); }

/// An hour's nitrogen for a dm2 of frond as KelpRates::uptake_per_day.
double uptake_per_day(double per_hour, const KelpConstants& k) {
  return kHours * per_hour / (k.k_a * (k.n_max - k.n_min));
}

using Functions = std::array<double, KelpTable::kFunctions>;

Functions functions_at(double temperature, double inhibition, const KelpConstants& k) {
  const kelp::LightCurve curve = kelp::light_curve(inhibition, k);
  return {curve.use, curve.use * inhibition, kHours * kelp::respiration(temperature, k) / k.k_a,
          k.blade_m > 0.0 ? uptake_per_day(kelp::blade_supply(1.0, temperature, k), k) : 0.0};
}

}  // namespace

KelpTable::KelpTable(const KelpConstants& k) {
  double last = kelp::inhibition(kelp::p_max(kColdest, k), k);
  const auto next = [&](double place) {
    const double temperature = kColdest + place / kPerDegree;
    last = kelp::inhibition_near(kelp::p_max(temperature, k), last, k);
    return functions_at(temperature, last, k);
  };
  Functions from = next(0.0);
  for (std::size_t i = 0; i < kPieces; ++i) {
    const Functions middle = next(static_cast<double>(i) + 0.5);
    const Functions to = next(static_cast<double>(i) + 1.0);
    for (std::size_t f = 0; f < kFunctions; ++f) {
      float* terms = &terms_[i * kStride + f * kTerms];
      terms[0] = narrow(from[f]);
      terms[1] = narrow(4.0 * middle[f] - 3.0 * from[f] - to[f]);
      terms[2] = narrow(2.0 * (from[f] + to[f]) - 4.0 * middle[f]);
    }
    from = to;
  }
}

KelpKernel kelp_kernel(const KelpConstants& k, const Husbandry& husbandry) {
  constexpr double kStep = 1.0 / kKelpSteps;
  return {canopy_light(husbandry, k.canopy_height_m,
                       k.shade_m2_per_g / (k.canopy_width_m * k.canopy_height_m)),
          KelpTable(k),
          curve_lines(k.temperature),
          curve_lines(k.salinity),
          narrow(k.a1),
          narrow(k.a1 + k.a2),
          narrow(kStep * k.alpha / k.k_a),
          narrow(kStep),
          narrow(k.m1),
          narrow(k.m2),
          narrow(std::sqrt(kLog2E) / k.a0),
          narrow(-kLog2E * k.epsilon),
          narrow(kLog2E * k.gamma),
          narrow(k.c_min),
          narrow(k.c_struct),
          narrow(k.n_min),
          narrow(k.n_max),
          narrow(k.n_struct),
          narrow(husbandry.nh4_share),
          narrow(uptake_per_day(k.j_max, k)),
          narrow(k.k_x),
          narrow(k.c1),
          narrow(-kLog2E / k.c2),
          narrow(k.c3),
          k.blade_m > 0.0,
          narrow(k.fronds_per_m * k.k_a),
          narrow(k.k_c),
          narrow(k.k_n),
          narrow(reserve_factor(k.n_max, k.n_min)),
          {k.start_area, k.start_n, k.start_c}};
}

void fill_block(const KernelForcing& forcing, const Frond& seed, std::size_t begin,
                KelpBlock& block) {
  fill_forcing(forcing, begin, block);
  block.area.fill(narrow(seed.area));
  block.area_rest.fill(0.0F);
  block.n.fill(narrow(seed.n));
  block.c.fill(narrow(seed.c));
}

}  // namespace tidelot
