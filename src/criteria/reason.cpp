// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/reason.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

#include "criteria/codes.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason_codes.hpp"
#include "tidelot/growth/limits.hpp"

namespace tidelot {
namespace {

constexpr std::pair<std::uint8_t, std::string_view> kTexts[] = {
    {reason::kOutside, "outside the area asked for"},
    {reason::kLand, "land at low water"},
    {reason::kDepthUnknown, "depth not known"},
    {reason::kTemperatureUnknown, "temperature not known"},
    {reason::kSalinityUnknown, "salinity not known"},
    {reason::kLightUnknown, "light not known"},
    {reason::kNitrogenUnknown, "nitrogen not known"},
    {reason::kCurrentUnknown, "current not known"},
    {reason::kOwnUnknown, "a layer of your own not known"},
    {reason::kAccessUnknown, "no way over water to the landing known"},
    {reason::kNothing, "nothing: everything is at its best"},
    {reason::kAground, "gear would ground at the lowest tides"},
    {reason::kTooCold, "water too cold for a season"},
    {reason::kTooHot, "water too warm for a season"},
    {reason::kOutsideGear, "season and gear dates do not meet"},
    {reason::kCropLost, "crop would be lost: it shrinks more than it grows"},
    {reason::kTooShallow, "shallower than wanted"},
    {reason::kTooDeep, "deeper than wanted"},
    {reason::kCurrentWeak, "current weaker than wanted"},
    {reason::kCurrentStrong, "current stronger than wanted"},
    {reason::kFarFromLanding, "far from the landing"},
    {reason::kWavesHigh, "waves higher than wanted"},
    {reason::kSteep, "bed steeper than wanted"},
    {reason::kSlopeUnknown, "slope of the bed not known"},
    {reason::kBeyondDepth, "deeper than the gear allows"},
    {reason::kBeyondWaves, "waves higher than the gear bears"},
    {reason::kBeyondCurrent, "current stronger than the gear bears"},
};

static_assert(reason::kGrowth.size() == kLimits - 1, "a code for each limit but none");

}  // namespace

void require_codes(const Plan& plan) {
  if (plan.closed.size() > closed_bit::kMaxRules) {
    throw Error(Fault::plan,
                fmt::format("closed: {} rules are more than the {} that closed.tif can hold; put "
                            "areas with the same setback into one file",
                            plan.closed.size(), closed_bit::kMaxRules));
  }
  std::size_t own = 0;
  for (const CriterionPlan& criterion : plan.criteria) {
    own += kind_of(criterion) == CriterionKind::own ? 1 : 0;
  }
  if (own > kMaxOwn || plan.criteria.size() > kMostCriteria) {
    throw Error(Fault::plan, fmt::format("criteria: {} layers of your own are more than the {} "
                                         "that reason.tif can hold; leave some out",
                                         own, kMaxOwn));
  }
}

std::vector<std::string> reason_names(const Plan& plan) {
  require_codes(plan);
  const bool unknown = std::any_of(plan.closed.begin(), plan.closed.end(),
                                   [](const ClosedPlan& c) { return !c.status_field.empty(); });
  std::vector<std::string> names((unknown ? reason::kFirstRuleUnknown : reason::kFirstRule) +
                                 plan.closed.size());
  for (const auto& [code, text] : kTexts) {
    names[code] = text;
  }
  for (std::size_t limit = 0; limit < reason::kGrowth.size(); ++limit) {
    names[reason::kGrowth[limit]] =
        fmt::format("growth held back by: {}", limit_phrase(static_cast<Limit>(limit)));
  }
  std::size_t own = reason::kFirstOwn;
  for (const CriterionPlan& criterion : plan.criteria) {
    if (kind_of(criterion) == CriterionKind::own) {
      names[own++] = "held back by: " + criterion.name;
    }
  }
  for (std::size_t i = 0; i < plan.closed.size(); ++i) {
    if (plan.closed[i].closes()) {
      names[reason::kFirstRule + i] = "closed: " + plan.closed[i].name;
    }
    if (plan.closed[i].closes() && !plan.closed[i].status_field.empty()) {
      names[reason::kFirstRuleUnknown + i] = "not known: " + plan.closed[i].name;
    }
  }
  return names;
}

std::vector<std::string> closed_bit_names(const Plan& plan) {
  require_codes(plan);
  std::vector<std::string> names(closed_bit::kFirstRule + plan.closed.size());
  names[closed_bit::kTooShallow] = "too shallow: gear would ground at the lowest tides";
  names[closed_bit::kTooDeep] = "too deep for the gear";
  names[closed_bit::kWaves] = "waves too high for the gear";
  names[closed_bit::kCurrent] = "current too strong for the gear";
  for (std::size_t i = 0; i < plan.closed.size(); ++i) {
    if (plan.closed[i].closes()) {
      names[closed_bit::kFirstRule + i] = plan.closed[i].name;
    }
  }
  return names;
}

}  // namespace tidelot
