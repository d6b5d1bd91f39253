// SPDX-License-Identifier: Apache-2.0
#include "growth/kernel_block.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "growth/numbers.hpp"
#include "tidelot/season/sun.hpp"

namespace tidelot {
namespace {

constexpr double kLog2E = std::numbers::log2e;

float narrow(double value) { return static_cast<float>(value); }

std::array<const NodeArray*, kProperties> properties(const KernelForcing& f) {
  return {&f.temperature, &f.salinity,  &f.attenuation, &f.nitrogen,
          &f.current,     &f.radiation, &f.ammonium};
}

void set_salinity(KernelConstants& k, const Curve& curve) {
  const auto& points = curve.points();
  k.salinity_before = narrow(points.front().y);
  for (std::size_t i = 0; i < points.size(); ++i) {
    const bool last = i + 1 == points.size();
    const double width = last ? 0.0 : points[i + 1].x - points[i].x;
    const double slope = width > 0.0 ? (points[i + 1].y - points[i].y) / width : 0.0;
    k.salinity.push_back(
        {narrow(points[i].x), narrow(slope), narrow(points[i].y - slope * points[i].x)});
  }
}

void set_light(KernelConstants& k, const AlgaConstants& c, const Husbandry& husbandry) {
  const double height = c.canopy_height_m;
  k.top_depth = narrow(kLog2E * std::max(0.0, husbandry.line_depth_m - height / 2.0));
  k.canopy_half = narrow(kLog2E * height / 2.0);
  k.canopy_outer = narrow(kLog2E * height * kGaussOuter);
  k.shade_per_weight = narrow(c.shade_m2_per_g * c.dry_to_fresh / (c.canopy_width_m * height));
  k.half_tide = narrow(husbandry.tide_m / 2.0);
}

void set_nitrogen(KernelConstants& k, const AlgaConstants& c, double nh4_share) {
  k.nh4_share = narrow(nh4_share);
  k.k_nh4 = narrow(c.k_nh4);
  k.k_no3 = narrow(c.k_no3);
  k.k_inhibition = narrow(c.k_inhibition);
  const double per_day = kNitrogenPerDay / (c.q_max - c.q_min);
  k.uptake_nh4 = narrow(per_day * c.vmax_nh4);
  k.uptake_no3 = narrow(per_day * c.vmax_no3 * c.k_inhibition);
  k.boundary_slope = narrow(-kLog2E / c.u0);
  k.q_min = narrow(c.q_min);
  k.q_max = narrow(c.q_max);
  k.q_start = narrow(c.q_start);
}

KernelTransfer kernel_transfer(const AlgaConstants& c) {
  const Branch& branch = *c.branch;
  const double per_day = kNitrogenPerDay / (c.q_max - c.q_min);
  const auto eddies = [&](double t) {
    return branch_eddies({1.0, branch.width_m, sea_water_viscosity(t)});
  };
  KernelTransfer out{};
  out.eddies = temperature_fit(eddies);
  for (const Nutrient nutrient : {Nutrient::ammonium, Nutrient::nitrate}) {
    const auto still = [&](double t) { return per_day * branch_supply(nutrient, 0.0, t, branch); };
    const auto i = static_cast<std::size_t>(nutrient);
    out.still[i] = temperature_fit(still);
    out.moving[i] = temperature_fit([&](double t) {
      return (per_day * branch_supply(nutrient, 1.0, t, branch) - still(t)) /
             std::pow(1.0 + eddies(t), 0.8);
    });
  }
  return out;
}

/// Day d (0 is 1 January) from the tables of the sun.
KernelDay kernel_day(const KernelForcing& forcing, const AlgaConstants& c, std::size_t d) {
  const double reference = c.light_ref_h * std::tanh(c.light_ref / c.light_ik);
  std::array<double, 2> noon{};
  std::array<double, 2> length{};
  for (std::size_t i = 0; i < 2; ++i) {
    const double hours = forcing.sun_day_length_h[i][d];
    const bool given = !forcing.radiation.values.empty();
    const double radiation = given ? 1.0 : forcing.sun_radiation_mj[i][d];
    noon[i] = noon_flux(par_below_surface(radiation), hours) / c.light_ik;
    length[i] = hours / reference;
  }
  const DayPosition& at = day_positions()[d];
  return {static_cast<std::size_t>(at.month),
          static_cast<std::size_t>((at.month + 1) % kMonths),
          at.weight,
          narrow(noon[0]),
          narrow(noon[1] - noon[0]),
          narrow(length[0]),
          narrow(length[1] - length[0])};
}

void copy_row(const float* from, std::size_t count, BlockRow& row) {
  std::copy_n(from, count, row.begin());
  std::fill(row.begin() + static_cast<std::ptrdiff_t>(count), row.end(), from[0]);
}

}  // namespace

KernelConstants kernel_constants(const AlgaConstants& c, const Husbandry& husbandry) {
  KernelConstants k{};
  k.t_min = narrow(c.t_min);
  k.t_opt = narrow(c.t_opt);
  k.t_max = narrow(c.t_max);
  k.t_below = narrow(c.t_opt - c.t_min);
  k.t_above = narrow(c.t_opt - c.t_max);
  set_salinity(k, c.salinity);
  set_light(k, c, husbandry);
  set_nitrogen(k, c, husbandry.nh4_share);
  k.quota_scale = narrow(1.0 / (1.0 - c.q_min / c.q_max));
  k.growth = narrow(c.mu_max_per_day);
  k.respiration_20 = narrow(c.respiration_20);
  k.respiration_slope = narrow(std::log2(c.q10) / 10.0);
  k.loss = narrow(c.loss_per_day);
  k.inverse_w_max = narrow(1.0 / c.w_max);
  k.stocking = narrow(husbandry.stocking_g_per_m);
  k.harvest_days = static_cast<float>(husbandry.harvest_days);
  if (c.branch) {
    k.transfer = kernel_transfer(c);
  }
  return k;
}

KernelSeason kernel_season(const KernelForcing& forcing, const Husbandry& husbandry,
                           const AlgaConstants& constants) {
  KernelSeason season{kernel_constants(constants, husbandry), {}, {}, {}, false, false, false};
  const auto all = properties(forcing);
  for (std::size_t p = 0; p < kProperties; ++p) {
    season.steady[p] = all[p]->steady;
    season.one_row[p] = all[p]->steady || all[p]->daily;
    season.daily = season.daily || all[p]->daily;
  }
  season.ammonium_given = !forcing.ammonium.values.empty();
  season.radiation_given = !forcing.radiation.values.empty();
  for (std::size_t d = 0; d < kDaysPerYear; ++d) {
    season.days[d] = kernel_day(forcing, constants, d);
  }
  return season;
}

void set_day(const KernelForcing& forcing, std::size_t begin, std::size_t d, KernelBlock& block) {
  const std::size_t count = std::min(kBlockCells, forcing.cells - begin);
  const auto all = properties(forcing);
  for (std::size_t p = 0; p < kProperties; ++p) {
    if (all[p]->daily) {
      copy_row(&all[p]->values[d * forcing.cells + begin], count, block.nodes[p][0]);
    }
  }
}

void fill_block(const KernelForcing& forcing, const KernelConstants& c, std::size_t begin,
                KernelBlock& block) {
  const std::size_t count = std::min(kBlockCells, forcing.cells - begin);
  const auto all = properties(forcing);
  for (std::size_t p = 0; p < kProperties; ++p) {
    const std::size_t rows = all[p]->daily ? 0 : all[p]->values.size() / forcing.cells;
    for (std::size_t row = 0; row < rows; ++row) {
      copy_row(&all[p]->values[row * forcing.cells + begin], count, block.nodes[p][row]);
    }
  }
  copy_row(&forcing.latitude_weight[begin], count, block.latitude_weight);
  for (std::size_t i = 0; i < kBlockCells; ++i) {
    const bool real = i < count;
    block.first_day[i] = real ? static_cast<float>(forcing.outplant[begin + i]) : 1.0F;
    block.last_day[i] = real ? static_cast<float>(forcing.last_haul[begin + i]) : 0.0F;
  }
  block.weight.fill(c.stocking);
  block.reserve.fill(c.q_start);
  for (BlockRow* row :
       {&block.days_since_harvest, &block.hauled, &block.hauled_nitrogen, &block.harvests}) {
    row->fill(0.0F);
  }
  for (BlockRow& row : block.factor_sum) {
    row.fill(0.0F);
  }
}

}  // namespace tidelot
