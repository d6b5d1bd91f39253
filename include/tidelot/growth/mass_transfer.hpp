// SPDX-License-Identifier: Apache-2.0
// How fast water hands a dissolved nutrient to a crop: diffusion through the boundary layer, which
// is the thinner the faster the water, and what is then taken up.
#pragma once

namespace tidelot {

/// The branches of an alga.
struct Branch {
  double width_m = 0.0;           ///< of one branch
  double surface_m2_per_g = 0.0;  ///< of all branches, per g of dry weight
};

enum class Nutrient { ammonium, nitrate };

/// Diffusivity in water, m2/s, temperature in degC: ammonium (9.50 + 0.413 T) 1e-10, nitrate (9.50
/// + 0.388 T) 1e-10 (Li & Gregory 1974, Geochim. Cosmochim. Acta 38:703; Boudreau 1997; from
/// memory). The temperature is held between -4 and 45.
[[nodiscard]] double diffusivity(Nutrient nutrient, double temperature);

/// Kinematic viscosity of sea water of salinity 35, m2/s, temperature in degC, held likewise
/// (Sharqawy, Lienhard & Zubair 2010, Desalin. Water Treat. 16:354, from memory). Fresh water is 5
/// % less viscous: not counted.
[[nodiscard]] double sea_water_viscosity(double temperature);

/// A surface of one size in water that moves.
struct Flow {
  double current;    ///< m/s
  double size_m;     ///< of what it passes
  double viscosity;  ///< kinematic, m2/s
};

/// Mean mass-transfer velocity k = Sh D/size, m/s, of a blade of that length under a laminar layer:
/// Sh = 0.664 Re^1/2 Sc^1/3.
[[nodiscard]] double blade_transfer(const Flow& flow, double diffusivity);

/// The same of a branch of that width across the current: Churchill & Bernstein 1977, J. Heat
/// Transfer 99:300: Sh = 0.3 + 0.62 Re^1/2 Sc^1/3/(1 + (0.4/Sc)^2/3)^1/4 (1 + (Re/282000)^5/8)^4/5.
[[nodiscard]] double branch_transfer(const Flow& flow, double diffusivity);

/// (Re/282000)^5/8 of that equation.
[[nodiscard]] double branch_eddies(const Flow& flow);

/// Uptake that transport and the crop limit together, in v_max's unit (Hill & Whittingham's
/// quadratic): the smaller root of V^2 - (v_max + h (k + s)) V + v_max h s. s and k in umol/L, h in
/// v_max's unit per umol/L; h = 0: nothing arrives; h without end: Michaelis-Menten.
[[nodiscard]] double co_limited(double s, double v_max, double k, double h);

/// h of a branch, L per g of dry weight and hour.
[[nodiscard]] double branch_supply(Nutrient nutrient, double current, double temperature,
                                   const Branch& branch);

}  // namespace tidelot
