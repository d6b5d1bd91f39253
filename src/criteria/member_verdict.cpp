// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/member_verdict.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "criteria/member_verdict.cpp"  // this file, once a target
#include <hwy/foreach_target.h>
// after foreach_target
#include <hwy/highway.h>

#include "criteria/codes.hpp"
#include "criteria/verdict_rule.hpp"
#include "growth/forcing_vector.hpp"
#include "tidelot/criteria/suitability.hpp"

HWY_BEFORE_NAMESPACE();
namespace tidelot::HWY_NAMESPACE {

/// log2 of x >= 0, within 3e-7 + 1e-7 |log2 x|; -1e30 of 0. With x = 2^e m, m between 1/sqrt(2) and
/// sqrt(2): log2 m = 2/ln 2 (t + t^3/3 + ...), t = (m - 1)/(m + 1).
HWY_INLINE Vector log2_of(Vector x) {
  const Lanes d;
  const hn::RebindToSigned<Lanes> di;
  constexpr std::int32_t kRootHalf = 0x3F3504F3;
  const auto bits = hn::BitCast(di, x);
  const auto e = hn::ShiftRight<23>(hn::Sub(bits, hn::Set(di, kRootHalf)));
  const Vector m = hn::BitCast(d, hn::Sub(bits, hn::ShiftLeft<23>(e)));
  const Vector t = hn::Div(hn::Sub(m, all(1.0F)), hn::Add(m, all(1.0F)));
  const Vector square = hn::Mul(t, t);
  Vector p = times_plus(all(0.32059889F), square, all(0.41219858F));  // 2/ln 2 over 9, 7, ..., 1
  p = times_plus(p, square, all(0.57707802F));
  p = times_plus(p, square, all(0.96179669F));
  p = times_plus(p, square, all(2.88539008F));
  const Vector log = times_plus(t, p, hn::ConvertTo(d, e));
  return hn::IfThenElse(hn::Lt(x, all(1e-37F)), all(-1e30F), log);
}

/// What some criteria add to a score's logarithm, or that of the lowest of them.
HWY_INLINE Vector counted(const MemberVerdict::Rule& rule,
                          const std::vector<VaryingCriterion>& criteria, Vector x, Vector so_far) {
  for (const VaryingCriterion& one : criteria) {
    const Vector log = log2_of(curve_at(one.curve, x));
    so_far = rule.lowest_decides ? hn::Min(so_far, hn::Sub(log, all(rule.each_needs)))
                                 : times_plus(log, all(one.weight), so_far);
  }
  return so_far;
}

HWY_INLINE Vector yield_here(const MembersOfCell& members, std::size_t m) {
  Vector sum = all(0.0F);
  for (std::size_t k = 0; k < members.share.size(); ++k) {
    if (members.share[k] != 0.0F) {
      sum =
          times_plus(hn::LoadU(Lanes(), members.yield_g_per_m[k] + m), all(members.share[k]), sum);
    }
  }
  return sum;
}

/// Verdicts by the growth of one vector of members, where the other criteria come to so much.
template <class Mask>
struct Growth {
  Mask suitable, sure, close;
};
HWY_INLINE auto verdict_of_growth(const MemberVerdict::Rule& rule, const MembersOfCell& members,
                                  Vector others, Vector needed, std::size_t m) {
  constexpr float kNear = 3e-5F;
  const Vector zero = all(0.0F);
  const auto reached = hn::Ge(others, zero);
  using Mask = decltype(reached);
  const Mask near = hn::Lt(hn::Abs(others), all(kNear));
  if (rule.growth.empty()) {
    return Growth<Mask>{reached, hn::Eq(zero, zero), near};
  }
  const Vector here = yield_here(members, m);
  const Mask grows = hn::Eq(here, here);
  const auto score = [&](Vector yield) HWY_ATTR {
    const Vector kg = hn::Mul(hn::IfThenElseZero(grows, yield), all(1e-3F));
    return curve_at(rule.growth[0].curve, hn::Max(kg, zero));
  };
  const auto enough = [&](Vector yield) HWY_ATTR { return hn::Ge(score(yield), needed); };
  const Vector counts = score(here);
  const Mask by_growth = hn::And(grows, hn::Ge(counts, needed));
  const Mask suitable = rule.lowest_decides ? hn::And(by_growth, reached) : by_growth;
  const Mask close = hn::Lt(hn::Abs(hn::Sub(counts, needed)), hn::Mul(needed, all(kNear)));
  const Mask any_close = hn::And(grows, rule.lowest_decides ? hn::Or(close, near) : close);
  if (!(members.off_g_per_m > 0.0F)) {
    return Growth<Mask>{suitable, hn::Eq(zero, zero), any_close};
  }
  const Vector off = all(members.off_g_per_m);
  const Mask turned = hn::Xor(enough(hn::Sub(here, off)), enough(hn::Add(here, off)));
  return Growth<Mask>{suitable, hn::Or(hn::Not(turned), hn::Not(grows)), any_close};
}

/// The least score of growth that is enough beside the others.
HWY_INLINE Vector growth_needed(const MemberVerdict::Rule& rule, Vector others) {
  if (rule.growth.empty()) {
    return others;
  }
  const Vector log = rule.lowest_decides ? all(rule.each_needs)
                                         : hn::Mul(others, all(-1.0F / rule.growth[0].weight));
  return exp2(Lanes(), log);
}

void tell_members(const CellRule& cell, const MembersOfCell& members, std::size_t count,
                  MemberVerdicts& out) {
  const Lanes d;
  const MemberVerdict::Rule& rule = cell.rule;
  const bool current = !rule.current.empty() || rule.most_current_m_s < 1e30F;
  Vector others = counted(rule, rule.depth, all(cell.depth_m), all(cell.start));
  Vector needed = growth_needed(rule, others);  // of all members, where nothing differs but growth
  std::size_t suitable_count = 0, unsure = 0;
  bool close = false;
  for (std::size_t m = 0; m < count; m += hn::Lanes(d)) {
    const Vector depth = hn::Add(all(cell.depth_m), hn::LoadU(d, members.depth_shift_m + m));
    auto open = hn::And(hn::And(hn::Gt(depth, all(0.0F)), hn::Ge(depth, all(rule.least_depth_m))),
                        hn::Le(depth, all(rule.most_depth_m)));
    Vector speed = all(cell.current_m_s);
    if (current) {
      const float s = members.current_spread;
      const Vector power = times_plus(hn::LoadU(d, members.current_z + m), all(kLog2E * s),
                                      all(-kLog2E * s * s / 2.0F));
      speed = hn::Mul(speed, exp2(d, power));
      open = hn::And(open, hn::Le(speed, all(rule.most_current_m_s)));
    }
    if (cell.depth_differs || current) {
      others = counted(rule, rule.depth, depth, all(cell.start));
      others = counted(rule, rule.current, speed, others);
      needed = growth_needed(rule, others);
    }
    const auto growth = verdict_of_growth(rule, members, others, needed, m);
    const auto suitable = hn::And(open, growth.suitable);
    hn::StoreU(hn::IfThenElseZero(open, all(1.0F)), d, &out.open[m]);
    hn::StoreU(hn::IfThenElseZero(suitable, all(1.0F)), d, &out.suitable[m]);
    suitable_count += hn::CountTrue(d, suitable);
    unsure += hn::CountTrue(d, hn::AndNot(growth.sure, open));
    close = close || !hn::AllFalse(d, hn::And(open, growth.close));
  }
  out.suitable_count = suitable_count;
  out.unsure = unsure;
  out.close = close;
}

}  // namespace tidelot::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace tidelot {
namespace {

HWY_EXPORT(tell_members);

constexpr float kNoLimit = 2e30F;
constexpr double kNothing = -1e30;    // log2 of a score of 0
constexpr double kAnyScore = -100.0;  // log2 of what any score above 0 reaches

double log2_or_nothing(double score) { return score > 0.0 ? std::log2(score) : kNothing; }

float limit(const std::optional<double>& most) {
  return most ? static_cast<float>(*most) : kNoLimit;
}

/// The depth at which gear just clears the bed.
float least_depth(const FarmPlan& farm, double lowest_tide_m) {
  return static_cast<float>(farm.clearance_m - clearance_m(0.0, lowest_tide_m, farm));
}

MemberVerdict::Rule rule_of(const Plan& plan, double least) {
  MemberVerdict::Rule rule;
  rule.lowest_decides = plan.combine == Combine::minimum;
  for (std::size_t i = 0; i < plan.criteria.size(); ++i) {
    const CriterionPlan& one = plan.criteria[i];
    if (!(one.weight > 0.0)) {
      continue;
    }
    rule.weight += one.weight;
    const VaryingCriterion varying{curve_lines(one.curve), static_cast<float>(one.weight)};
    switch (kind_of(one)) {
      case CriterionKind::growth:
        rule.growth.push_back(varying);
        break;
      case CriterionKind::depth:
        rule.depth.push_back(varying);
        break;
      case CriterionKind::current:
        rule.current.push_back(varying);
        break;
      case CriterionKind::waves:
      case CriterionKind::access:
      case CriterionKind::slope:
      case CriterionKind::own:
        rule.fixed.push_back(i);
        rule.fixed_weight.push_back(one.weight);
        break;
    }
  }
  rule.weight = rule.lowest_decides ? 1.0 : rule.weight;
  rule.log_least = least > 0.0 ? std::log2(least) : kAnyScore;
  rule.each_needs = static_cast<float>(rule.log_least);
  rule.least_depth_m = least_depth(plan.farm, plan.depth.lowest_tide_m);
  rule.most_depth_m = limit(plan.farm.max_depth_m);
  rule.most_current_m_s = limit(plan.farm.max_current_m_s);
  rule.most_wave_m = plan.farm.max_wave_m;
  return rule;
}

/// Is the curve flat from one x to another?
bool is_flat(const CurveLines& curve, float from, float to) {
  const CurveLine* line = nullptr;
  for (const CurveLine& next : curve.lines) {
    if (next.from > from && next.from <= to) {
      return false;
    }
    line = next.from <= from ? &next : line;
  }
  return line == nullptr || line->slope == 0.0F;
}

/// Nobody's: closed to all.
void tell_none(MemberVerdicts& out) {
  std::fill(out.open.begin(), out.open.end(), 0.0F);
  std::fill(out.suitable.begin(), out.suitable.end(), 0.0F);
  out.suitable_count = out.unsure = 0;
  out.close = false;
}

/// The part of a score that is alike in all members; NaN: not known.
double fixed_part(const MemberVerdict::Rule& rule, const Scorer& scorer, const CellEvidence& cell) {
  double sum = 0.0;
  if (!rule.fixed.empty()) {
    const std::vector<double> scores = scorer.scores(cell);
    for (std::size_t k = 0; k < rule.fixed.size(); ++k) {
      const double log = std::isnan(scores[rule.fixed[k]])
                             ? std::numeric_limits<double>::quiet_NaN()
                             : log2_or_nothing(scores[rule.fixed[k]]);
      sum = rule.lowest_decides ? std::min(log, sum) : sum + rule.fixed_weight[k] * log;
      if (std::isnan(log)) {
        return log;
      }
    }
  }
  return sum;
}

}  // namespace

MemberVerdict::MemberVerdict(const Plan& plan, double least)
    : scorer_(plan), rule_(std::make_unique<const Rule>(rule_of(plan, least))) {}

MemberVerdict::~MemberVerdict() = default;

bool MemberVerdict::uses_current() const {
  return !rule_->current.empty() || rule_->most_current_m_s < kNoLimit;
}

bool MemberVerdict::can_tell(const CellEvidence& cell) const {
  return cell.rules == 0 && cell.rules_unknown == 0 && cell.unknown == 0 && rule_->weight > 0.0 &&
         rule_->growth.size() <= 1 && !std::isnan(cell.depth_low_water) &&
         !std::isnan(cell.season_current) && !std::isnan(fixed_part(*rule_, scorer_, cell));
}

void MemberVerdict::operator()(const CellEvidence& cell, const MembersOfCell& members,
                               MemberVerdicts& out) const {
  const auto depth = static_cast<float>(cell.depth_low_water);
  const float least = depth + members.least_shift_m;
  const float most = depth + members.most_shift_m;
  const bool too_rough = rule_->most_wave_m && cell.wave_50y_m > *rule_->most_wave_m;
  if (too_rough || most < rule_->least_depth_m || most <= 0.0F || least > rule_->most_depth_m) {
    tell_none(out);
    return;
  }
  // Counted from what is needed; where the lowest decides, every criterion must reach it.
  const double needed = rule_->weight * rule_->log_least;
  const double start = fixed_part(*rule_, scorer_, cell);
  const bool differs =
      std::any_of(rule_->depth.begin(), rule_->depth.end(),
                  [&](const VaryingCriterion& one) { return !is_flat(one.curve, least, most); });
  const CellRule here{*rule_, depth, static_cast<float>(cell.season_current),
                      static_cast<float>(start - needed), differs};
  HWY_DYNAMIC_DISPATCH(tell_members)(here, members, out.open.size(), out);
}

}  // namespace tidelot
#endif
