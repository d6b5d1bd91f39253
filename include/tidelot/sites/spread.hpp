// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
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
};

/// Of all ranked sites farmed at once.
struct SetSpread {
  Quantiles yield_t, nitrogen_kg;
};

/// Two sites are told apart where one's score is above the other's in so many of the members
/// (judgement: four in five).
inline constexpr double kToldApart = 0.8;

}  // namespace tidelot
