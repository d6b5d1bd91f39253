// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>

#include "tidelot/growth/kelp.hpp"

namespace tidelot {

/// A day is grown in so many equal steps. With 6 the season's yield is within 0.2 % of that with
/// 200 (tests/unit/growth/kelp_test.cpp).
inline constexpr int kKelpSteps = 6;

/// What one day's water and light allow a frond, constant over the day.
struct KelpRates {
  double growth;            ///< f_photo f_temp f_sal; times f_area 1/d
  double carbon_per_day;    ///< photosynthesis before exudation, g C per g structure
  double respired_per_day;  ///< g C per g structure
  double uptake_per_day;    ///< uptake over room in the reserve, 1/d
};

/// What a day did to a frond, g N a frond.
struct KelpGain {
  double taken_up = 0.0;
  double lost = 0.0;
};

/// Mean gross photosynthesis over day and canopy, g C dm-2 h-1, for a line that carries
/// dry_g_per_m.
[[nodiscard]] double mean_photosynthesis(const DayForcing& day, double dry_g_per_m,
                                         double inhibition, const Husbandry& husbandry,
                                         const KelpConstants& k);

/// KelpRates::uptake_per_day at `nitrogen` umol/L of DIN.
[[nodiscard]] double kelp_uptake(const DayForcing& day, double nitrogen, const Husbandry& husbandry,
                                 const KelpConstants& k);

/// inhibition: kelp::inhibition at the day's temperature.
[[nodiscard]] KelpRates kelp_rates(const DayForcing& day, const Frond& frond, double inhibition,
                                   const Husbandry& husbandry, const KelpConstants& k);

/// What a reserve allows: 1 - least/reserve, not below 0.
[[nodiscard]] double reserve_factor(double reserve, double least);

/// Grows a frond through one day. steps: kKelpSteps but for tests.
KelpGain grow_frond(Frond& frond, const KelpRates& rates, const KelpConstants& k,
                    int steps = kKelpSteps);

/// kelp::inhibition at a temperature (degC).
[[nodiscard]] double kelp_inhibition(double temperature, const KelpConstants& k);

/// A day whose light, temperature and frond are known and whose nitrogen may still be chosen, as of
/// the alga (alga_day.hpp). inhibition: at the day's temperature.
class KelpDay {
 public:
  KelpDay(const DayForcing& day, const Frond& frond, double inhibition, const Husbandry& husbandry,
          const KelpConstants& k);
  /// Nitrogen taken up over the day at `nitrogen` umol/L of DIN, g N/m.
  [[nodiscard]] double uptake(double nitrogen) const;
  /// The day's end, before the haul, at `nitrogen` umol/L; moves the frond on.
  [[nodiscard]] DayTrace end(double nitrogen, Frond& frond) const;
  /// The day's response factors, in the order of Factor.
  [[nodiscard]] std::array<double, kFactors> factors() const;

 private:
  [[nodiscard]] KelpRates rates(double nitrogen) const;

  const DayForcing& day_;
  const Husbandry& husbandry_;
  const KelpConstants& k_;
  Frond start_;
  KelpRates rates_;  // at the day's own nitrogen
};

}  // namespace tidelot
