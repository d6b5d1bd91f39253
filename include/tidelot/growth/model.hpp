// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "tidelot/core/crop.hpp"
#include "tidelot/core/curve.hpp"
#include "tidelot/growth/mass_transfer.hpp"

namespace tidelot {

/// Constants of the fragmenting red alga on a longline, as plain numbers. Sources: the crop
/// profile.
struct AlgaConstants {
  double mu_max_per_day;       ///< gross, ln, 1/d
  double t_min, t_opt, t_max;  ///< degC
  double light_ik;             ///< umol m-2 s-1
  double light_ref_h;          ///< h
  double light_ref;            ///< umol m-2 s-1
  double vmax_nh4, k_nh4;      ///< umol g DW-1 h-1; umol/L
  double vmax_no3, k_no3;
  double k_inhibition;           ///< umol/L
  double q_min, q_max, q_start;  ///< g N/g DW
  double respiration_20;         ///< 1/d
  double q10;
  double loss_per_day;    ///< 1/d
  double dry_to_fresh;    ///< g DW/g FW
  double w_max;           ///< g FW/m
  double shade_m2_per_g;  ///< kb, m2/g DW
  double canopy_width_m;
  double canopy_height_m;
  double u0;  ///< m/s
  Curve salinity;
  /// The mass-transfer form of the boundary layer; without it that of u0.
  std::optional<Branch> branch;
};
/// Throws std::invalid_argument when t_opt <= (t_min + t_max)/2, where CTMI loses its meaning.
[[nodiscard]] AlgaConstants alga_constants(const Crop& crop,
                                           BoundaryLayer layer = BoundaryLayer::current);

/// The cardinal temperature model with inflection, 1 at t_opt, 0 outside (t_min, t_max)
/// (Rosso, Lobry & Flandrois 1993, J. Theor. Biol. 162:447).
[[nodiscard]] double ctmi(double t, double t_min, double t_opt, double t_max);

/// Nitrogen uptake at empty reserve, g N/g DW/d: Michaelis-Menten for ammonium and nitrate, nitrate
/// held back by ammonium (D'Elia & DeBoer 1978, J. Phycol. 14:266), times the boundary-layer factor
/// or, with a branch, each form limited by its own diffusion to it as well. Umol/L, m/s, degC.
[[nodiscard]] double uptake_rate(double nh4, double no3, double current, double temperature,
                                 const AlgaConstants& c);

/// V = Vmax S/(K + S).
[[nodiscard]] double michaelis_menten(double s, double v_max, double k);

/// Reserve factor: (1 - Qmin/Q)/(1 - Qmin/Qmax) (Droop, normalised).
[[nodiscard]] double quota_factor(double q, double q_min, double q_max);

/// One day's water at the crop.
struct DayForcing {
  double temperature;   ///< degC
  double salinity;      ///< practical salinity
  double attenuation;   ///< 1/m
  double nitrogen;      ///< DIN, umol/L
  double current;       ///< m/s
  double par_mol;       ///< mol m-2 d-1 just below the surface
  double day_length_h;  ///< h
  /// Change of day length since the day before over the year's greatest, -1..1; for kelp alone.
  double day_length_change = 0.0;
  std::optional<double> nh4_share{};  ///< of ammonium in the nitrogen; empty: the husbandry's
};

/// Share of ammonium in dissolved nitrogen (umol/L both), 0..1; 0 where there is none.
[[nodiscard]] double ammonium_share(double ammonium, double nitrogen);

/// How the crop is kept. Depths in m, weights in g FW per metre of line. Stocking and harvest days
/// are those of a crop that is cut back.
struct Husbandry {
  double line_depth_m = 1.0;
  double stocking_g_per_m = 100.0;
  int harvest_days = 14;
  double nh4_share = 0.4;
  double tide_m =
      0.0;  ///< rises over a line fixed to the bed, at its depth at low water; floats: 0
};

/// One day of the trace; W and Q at the end of the day, before the cut.
struct DayTrace {
  DayForcing forcing;
  double f_temperature, f_salinity, f_light, f_nitrogen, f_density;
  double growth_per_day;   ///< m - loss, ln, 1/d
  double biomass_g_per_m;  ///< g FW/m
  double tissue_n;         ///< g N/g DW
  double harvest_g_per_m;  ///< g FW/m cut at the end of the day
  double uptake_g_per_m;   ///< g N/m taken up, from the exact step
  double lost_n_g_per_m;   ///< g N/m lost with breakage
};

/// A whole season, per metre of line. yield and nitrogen are net of what was stocked.
struct SeasonResult {
  double yield_g_per_m = 0.0;     ///< g FW/m; negative: the crop was lost
  double nitrogen_g_per_m = 0.0;  ///< g N/m carried off
  double uptake_g_per_m = 0.0;    ///< g N/m
  double lost_n_g_per_m = 0.0;    ///< g N/m
  int harvests = 0;               ///< hauls above 0
  std::vector<DayTrace> days;
};

/// The reference: a season in double precision, one DayForcing a day from outplant to last haul.
/// Equations: docs/science/growth.md.
[[nodiscard]] SeasonResult grow_season(std::span<const DayForcing> days, const Husbandry& husbandry,
                                       const AlgaConstants& constants);

}  // namespace tidelot
