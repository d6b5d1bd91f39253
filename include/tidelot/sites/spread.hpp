// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "tidelot/core/draws.hpp"

namespace tidelot {

/// What one input alone does to a site's spread.
struct InputShare {
  std::string input;      ///< "dissolved nitrogen", or of the crop "mu_max_per_day"
  bool measured = false;  ///< it can be measured at the site; else it is the crop's
  double yield = 0.0;     ///< share of the variance, 0..1
  double nitrogen = 0.0;
};

/// What each member gives, index = member.
struct MemberFigures {
  std::vector<double> yield_t, nitrogen_kg;  ///< net, with the crop's own draw-down
  std::vector<double> season_days;           ///< at the centre; empty where it is not known
};

/// The errors that the members were given for one layer at a site.
struct LayerErrors {
  std::string input;      ///< "dissolved nitrogen"
  std::string basis;      ///< who says how large the error is
  bool judged = false;    ///< nobody measured: a judgement stands in
  std::vector<double> z;  ///< standard normal deviates, index = member
};

/// What the members say of one site.
struct SiteSpread {
  Quantiles yield_t;  ///< with the crop's own draw-down, as the best estimate
  Quantiles nitrogen_kg;
  Quantiles suitability;  ///< mean over the covered cells
  double lost = 0.0;      ///< share of the members in which less is hauled than was put out
  // Of the ranked sites alone:
  double best = 0.0;        ///< share of the members in which its score is the highest
  double in_three = 0.0;    ///< among the three highest
  double above_next = 0.0;  ///< above that of the site ranked after it; of the last one 0
  bool ties_with_next = false;
  std::vector<InputShare> shares;  ///< told from chance, the largest of nitrogen first
  double shares_by_chance = 0.0;   ///< shares below are not told from chance
  MemberFigures members;
  std::vector<LayerErrors> layers;
};

/// Of all ranked sites farmed at once.
struct SetSpread {
  Quantiles yield_t, nitrogen_kg;
  MemberFigures members;  ///< season_days stays empty
};

/// Two places are told apart where one is above the other in so many of the members (judgement:
/// four in five).
inline constexpr double kToldApart = 0.8;

/// Share of the draws in which a is above b; equal ones count half. Both have as many draws, drawn
/// in pairs: draw i of both is of one crop. 0 of no draws.
[[nodiscard]] double chance_above(std::span<const double> a, std::span<const double> b);
/// Is one above the other so often that the two are told apart in this order?
[[nodiscard]] inline bool told_above(double chance_above) { return chance_above >= kToldApart; }

}  // namespace tidelot
