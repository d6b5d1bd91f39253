// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/kelp.hpp"

#include "growth/line.hpp"

namespace tidelot {

KelpConstants kelp_constants(const Crop& crop, BoundaryLayer layer) {
  KelpConstants k{};
  k.a0 = crop.at("a0");
  k.m1 = crop.at("m1");
  k.m2 = crop.at("m2");
  k.a1 = crop.at("a1");
  k.a2 = crop.at("a2");
  k.epsilon = crop.at("epsilon");
  k.alpha = crop.at("alpha");
  k.i_sat = crop.at("i_sat");
  k.p1 = crop.at("p1");
  k.t_p1 = crop.at("t_p1");
  k.t_ap = crop.at("t_ap");
  k.t_apl = crop.at("t_apl");
  k.t_pl = crop.at("t_pl");
  k.t_aph = crop.at("t_aph");
  k.t_ph = crop.at("t_ph");
  k.r1 = crop.at("r1");
  k.t_r1 = crop.at("t_r1");
  k.t_ar = crop.at("t_ar");
  k.gamma = crop.at("gamma");
  k.c_min = crop.at("c_min");
  k.c_struct = crop.at("c_struct");
  k.n_min = crop.at("n_min");
  k.n_max = crop.at("n_max");
  k.n_struct = crop.at("n_struct");
  k.j_max = crop.at("j_max");
  k.k_x = crop.at("k_x");
  k.c1 = crop.at("c1");
  k.c2 = crop.at("c2");
  k.c3 = crop.at("c3");
  k.k_a = crop.at("k_a");
  k.k_dw = crop.at("k_dw");
  k.k_c = crop.at("k_c");
  k.k_n = crop.at("k_n");
  k.shade_m2_per_g = crop.at("shade_m2_per_g");
  k.canopy_width_m = crop.at("canopy_width_m");
  k.canopy_height_m = crop.at("canopy_height_m");
  k.fronds_per_m = crop.at("fronds_per_m");
  k.start_area = crop.at("start_area");
  k.start_n = crop.at("start_n");
  k.start_c = crop.at("start_c");
  k.temperature = crop.temperature;
  k.salinity = crop.salinity;
  k.blade_m = layer == BoundaryLayer::mass_transfer ? crop.at("blade_m") : 0.0;
  return k;
}

SeasonResult grow_season(std::span<const DayForcing> days, const Husbandry& husbandry,
                         const KelpConstants& constants) {
  return grow_line(days, KelpLine(husbandry, constants));
}

}  // namespace tidelot
