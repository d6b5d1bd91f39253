// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// A key that is another one than the plan's because the crop is another one.
struct AssumedKey {
  std::string key;
  std::string planned;  ///< as JSON; "" where the plan does not give it
  std::string assumed;  ///< as JSON; "" where there is none
  std::string why;      ///< one short phrase
};

/// A plan as it is read for a crop.
struct CropPlan {
  Plan plan;
  std::vector<AssumedKey> assumed;  ///< empty: it is the plan's own crop
};

/// The plan for a crop by the name of its profile. For the plan's own crop it is the plan as it is.
/// For another, built-in one the plan is read once more with that profile, and without what the
/// plan says for its own crop alone: [crop.set], the curve of criteria.growth, stocking and harvest
/// days (where both crops have them they stay), given outplant and haul days, and the gear dates of
/// [season], which are a season's. Each of these then has the crop's default and is told in
/// assumed. All else stays. The title names the crop. Error(plan) for a name that is neither, and
/// as read_plan.
[[nodiscard]] CropPlan plan_for_crop(const Plan& plan, const std::string& crop);

}  // namespace tidelot
