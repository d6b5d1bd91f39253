// SPDX-License-Identifier: Apache-2.0
// Wind waves over a fetch, and what they do at the line and at the bed.
#pragma once

namespace tidelot {

/// Significant height, m, and the period that the form in use gives with it (of the peak), s.
struct SeaState {
  double height_m = 0.0;
  double period_s = 0.0;
};

/// Adjusted wind speed U_A = 0.71 U^1.23, m/s (Shore Protection Manual 1984, eq. 3-28a).
[[nodiscard]] double spm_adjusted_wind(double wind_10m);

/// Deep water, limited by fetch, never beyond the fully developed sea: Shore Protection Manual
/// 1984, eq. 3-33 to 3-38. adjusted_wind: U_A, m/s.
[[nodiscard]] SeaState spm_deep(double adjusted_wind, double fetch_m);

/// Least time for which the wind must blow for the fetch to limit the sea, s: g t/U_A = 68.8 (g
/// F/U_A^2)^(2/3) (Shore Protection Manual 1984, eq. 3-35).
[[nodiscard]] double spm_deep_duration_s(double adjusted_wind, double fetch_m);

/// Water of one depth, limited by fetch: Shore Protection Manual 1984, eq. 3-39 and 3-40.
[[nodiscard]] SeaState spm_shallow(double adjusted_wind, double fetch_m, double depth_m);

/// Coastal Engineering Manual, EM 1110-2-1100 part II-2 (2003): deep water by friction velocity.
[[nodiscard]] SeaState cem_deep(double wind_10m, double fetch_m);

/// Water of one depth, limited by fetch: Young & Verhagen 1996, Coastal Engineering 29:47-78, with
/// the rounded coefficients; H = 4 sqrt(energy).
[[nodiscard]] SeaState young_verhagen(double wind_10m, double fetch_m, double depth_m);

/// The refit of the same form by Breugem & Holthuijsen 2007 (J. Waterway Port Coastal Ocean Eng.
/// 133; coefficients from memory). Gives higher waves.
[[nodiscard]] SeaState breugem_holthuijsen(double wind_10m, double fetch_m, double depth_m);

/// Highest significant height that the depth carries, m: 0.6 of it. Single waves break at 0.78 of
/// the depth (McCowan 1894, from memory); the significant height of a broken sea is lower, 0.5 to
/// 0.6 (judgement, the upper end: the careful one).
[[nodiscard]] double depth_limited_height_m(double depth_m);

/// Wave length by linear theory, m: L = (g T^2 / 2 pi) tanh(2 pi d / L). Depth 0 gives 0.
[[nodiscard]] double wave_length_m(double period_s, double depth_m);

/// Greatest horizontal speed of the water in a wave by linear theory, m/s: (pi H/T) cosh(k (d -
/// below))/sinh(k d), below m under the still surface (at most depth_m: there it is at the bed).
[[nodiscard]] double orbital_speed(const SeaState& sea, double depth_m, double below_surface_m);

/// Share of the deep-water height left after shoaling, H/H0': sqrt(1/(2 n tanh kd)).
[[nodiscard]] double shoaling(double period_s, double depth_m);

/// Ratio n of group speed to phase speed.
[[nodiscard]] double group_ratio(double period_s, double depth_m);

/// Steady drag on a metre of line, N/m: rho C_d D U^2 / 2, sea water of 1025 kg/m3.
[[nodiscard]] double line_drag_n_per_m(double speed, double diameter_m, double drag_coefficient);

}  // namespace tidelot
