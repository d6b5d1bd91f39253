// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "tidelot/core/calendar.hpp"
#include "tidelot/core/crop.hpp"
#include "tidelot/growth/model.hpp"
#include "tidelot/growth/tile_kernel.hpp"

namespace tidelot {

/// What held growth back, as a grower tells it: a Factor with its side.
enum class Limit : std::uint8_t { cold, warm, fresh, salty, light, nitrogen, crowding, nothing };
inline constexpr int kLimits = 8;

/// "cold", "warm", "fresh", "salty", "light", "nitrogen", "crowding", "nothing".
[[nodiscard]] std::string_view limit_word(Limit limit);
/// The same to stand in a sentence: "cold water", "crowding on the line".
[[nodiscard]] std::string_view limit_phrase(Limit limit);

/// Where a property passes its best, and where it stops growth; from the crop profile.
struct LimitThresholds {
  double t_min, t_opt, t_max;         ///< degC; no growth at or beyond t_min, t_max
  double salinity_min, salinity_max;  ///< the curve is 0 at or beyond; infinite where it never is
  double salinity_best;               ///< middle of where the curve is highest
};
[[nodiscard]] LimitThresholds limit_thresholds(const Crop& crop);

/// A factor with its side.
[[nodiscard]] Limit limit_of(Factor factor, bool warm, bool salty);
/// The same on one day: cold below t_opt, fresh below salinity_best.
[[nodiscard]] Limit limit_of(Factor factor, double temperature, double salinity,
                             const LimitThresholds& thresholds);

/// Days on which a property alone stopped growth.
struct ToleranceDays {
  int too_cold = 0, too_warm = 0, too_fresh = 0, too_salty = 0;
  [[nodiscard]] int total() const { return too_cold + too_warm + too_fresh + too_salty; }
};
[[nodiscard]] ToleranceDays days_beyond(std::span<const DayTrace> days,
                                        const LimitThresholds& thresholds);

/// "3 too cold, 2 too fresh"; "none".
[[nodiscard]] std::string days_text(const ToleranceDays& days);

/// Mean light at the line over the hours of daylight, umol m-2 s-1: what is just below the surface
/// times exp(-Kd z); of a fixed line the mean over the tide. 0 in polar night.
[[nodiscard]] double light_at_line(const DayForcing& day, const Husbandry& husbandry);

/// One calendar month of a season, or the part of it that the season holds; means over its days.
struct SeasonMonth {
  int month = 0;        ///< 0..11
  DayOfYear first = 0;  ///< its first day in the season, counted on over the new year
  int days = 0;
  double temperature = 0.0;                    ///< degC
  double salinity = 0.0;                       ///< practical salinity
  double light_at_line = 0.0;                  ///< umol m-2 s-1, daytime mean
  double nitrogen = 0.0;                       ///< umol/L
  double growth_per_day = 0.0;                 ///< net, ln, 1/d
  std::array<double, kFactors> mean_factor{};  ///< light counts as 1 at most
  Limit limit = Limit::nothing;
  ToleranceDays beyond;
};

/// The season month by month, in its order. A month is held back most by the factor with the lowest
/// mean, the first of equals; by nothing when even that is 0.95 or more (judgement: a crop that was
/// just cut back has 0.975 for crowding). Temperature and salinity take the side whose days cost
/// more: the larger sum of 1 - f.
[[nodiscard]] std::vector<SeasonMonth> season_months(std::span<const DayTrace> days,
                                                     DayOfYear outplant, const Husbandry& husbandry,
                                                     const LimitThresholds& thresholds);

/// "May cold; Jun light; ...", "" without a season.
[[nodiscard]] std::string limits_by_month(std::span<const SeasonMonth> months);

}  // namespace tidelot
