// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>

#include "tidelot/core/crop.hpp"
#include "tidelot/core/curve.hpp"
#include "tidelot/growth/model.hpp"
#include "tidelot/growth/tile_kernel.hpp"

namespace tidelot {

/// Constants of a kelp frond on seeded line after Broch & Slagstad 2012 (J. Appl. Phycol.
/// 24:759-776), in that paper's symbols. Reserves are per g of structural dry weight. Sources: the
/// crop profile.
struct KelpConstants {
  double a0;              ///< dm2
  double m1, m2;          ///< 1/d
  double a1, a2;          ///< photoperiod
  double epsilon;         ///< 1/dm2
  double alpha;           ///< g C dm-2 h-1 (umol m-2 s-1)-1
  double i_sat;           ///< umol m-2 s-1
  double p1, t_p1, t_ap;  ///< g C dm-2 h-1; K
  double t_apl, t_pl;     ///< K
  double t_aph, t_ph;     ///< K
  double r1, t_r1, t_ar;  ///< g C dm-2 h-1; K
  double gamma;
  double c_min, c_struct;         ///< g C/g
  double n_min, n_max, n_struct;  ///< g N/g
  double j_max;                   ///< g N dm-2 h-1
  double k_x;                     ///< umol/L
  double c1, c2, c3;              ///< current factor c1 (1 - e^(-U/c2)) + c3; c2 in m/s
  double k_a;                     ///< g dm-2
  double k_dw;                    ///< dry over wet weight of structure
  double k_c, k_n;                ///< g of reserve tissue per g C, per g N
  double shade_m2_per_g;          ///< m2/g DW
  double canopy_width_m, canopy_height_m;
  double fronds_per_m;
  double start_area;        ///< dm2
  double start_n, start_c;  ///< g/g
  Curve temperature;        ///< f_temp
  Curve salinity;
  /// Length of blade over which a laminar layer grows, m: the mass-transfer form of the boundary
  /// layer; 0: the current factor.
  double blade_m = 0.0;
};
[[nodiscard]] KelpConstants kelp_constants(const Crop& crop,
                                           BoundaryLayer layer = BoundaryLayer::current);

/// A frond: area in dm2, nitrogen and carbon reserve in g per g of structural dry weight.
struct Frond {
  double area;
  double n;
  double c;
};

namespace kelp {

/// f_area = m1 e^(-(A/A0)^2) + m2, 1/d.
[[nodiscard]] double area_factor(double area, const KelpConstants& k);

/// f_photo = a1 (1 + sgn(l) sqrt(|l|)) + a2; l is DayForcing::day_length_change.
[[nodiscard]] double photoperiod_factor(double day_length_change, const KelpConstants& k);

/// Erosion of the tip, 1/d: 1e-6 e^(epsilon A)/(1 + 1e-6 (e^(epsilon A) - 1)).
[[nodiscard]] double erosion(double area, const KelpConstants& k);

/// Current factor of nitrate uptake, c1 (1 - e^(-U/c2)) + c3; U in m/s (Broch et al. 2019). With
/// c1 = 1, c2 = 0.03, c3 = 0 it is that of 2012.
[[nodiscard]] double current_factor(double current, const KelpConstants& k);

/// Nitrate uptake of a frond whose reserve is n, g N dm-2 h-1; nitrate in umol/L, current in m/s,
/// temperature in degC. The room in the reserve stands outside the limit by diffusion.
[[nodiscard]] double uptake(double nitrate, double current, double temperature, double n,
                            const KelpConstants& k);

/// What diffusion brings to both sides of the blade, g N dm-2 h-1 per umol/L of nitrate.
[[nodiscard]] double blade_supply(double current, double temperature, const KelpConstants& k);

/// Greatest gross photosynthesis at a temperature (degC), g C dm-2 h-1.
[[nodiscard]] double p_max(double temperature, const KelpConstants& k);

/// beta/alpha for which photosynthesis at i_sat is p_max: photoinhibition. From 0 (p_max 0) up;
/// a p_max of alpha i_sat/e or more cannot be had and gives the strongest inhibition looked at.
[[nodiscard]] double inhibition(double p_max, const KelpConstants& k);
/// The same, found sooner where it is near to another.
[[nodiscard]] double inhibition_near(double p_max, double near, const KelpConstants& k);

/// P = P_S (1 - e^(-alpha I/P_S)) e^(-beta I/P_S), g C dm-2 h-1, P_S = alpha I_sat/ln(1 +
/// alpha/beta); I in umol m-2 s-1, inhibition is beta/alpha.
[[nodiscard]] double photosynthesis(double light, double inhibition, const KelpConstants& k);

/// The same curve at one temperature, what does not change with the light worked out.
struct LightCurve {
  double inhibition;  ///< beta/alpha
  double use;         ///< alpha I/P_S over I
  double most;        ///< -P_S
  [[nodiscard]] double operator()(double light) const;
};
[[nodiscard]] LightCurve light_curve(double inhibition, const KelpConstants& k);

/// R = R1 e^(T_AR/T_R1 - T_AR/T), g C dm-2 h-1; temperature in degC.
[[nodiscard]] double respiration(double temperature, const KelpConstants& k);

/// E = 1 - e^(gamma (C_min - C)), the share of photosynthesis that is given off.
[[nodiscard]] double exudation(double c, const KelpConstants& k);

/// Weights of one frond, g.
[[nodiscard]] double structural_weight(const Frond& frond, const KelpConstants& k);
[[nodiscard]] double dry_weight(const Frond& frond, const KelpConstants& k);
[[nodiscard]] double wet_weight(const Frond& frond, const KelpConstants& k);

/// All of a frond's nitrogen and carbon, g.
[[nodiscard]] double total_nitrogen(const Frond& frond, const KelpConstants& k);
[[nodiscard]] double total_carbon(const Frond& frond, const KelpConstants& k);

}  // namespace kelp

/// The reference for kelp: seeded at outplant, hauled whole at the end of the last day. Of the
/// husbandry only line depth and the ammonium share count. tissue_n is all nitrogen over dry
/// weight; growth_per_day is the net relative growth of the frond's area; f_nitrogen and f_light
/// are what nitrogen and carbon reserve allow over what a full nitrogen reserve does (growth
/// follows the smaller); f_density is 1, crowding acts through the light. Equations:
/// docs/science/kelp.md.
[[nodiscard]] SeasonResult grow_season(std::span<const DayForcing> days, const Husbandry& husbandry,
                                       const KelpConstants& constants);

/// The float32 season of many cells at once. Within 5e-6 of grow_season, of what is
/// hauled or, where that is more, seeded; the same
/// bits for any number of threads and any vector width. Needs
/// KernelForcing::sun_day_length_change.
[[nodiscard]] KernelResult grow_tile(const KernelForcing& forcing, const Husbandry& husbandry,
                                     const KelpConstants& constants);

}  // namespace tidelot
