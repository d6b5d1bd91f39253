// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/criterion_kind.hpp"

#include <catch2/catch.hpp>

using namespace tidelot;

namespace {

CriterionPlan named(const std::string& name, double weight, bool with_file = false) {
  return {name, Curve({{0, 0}, {1, 1}}), weight,
          with_file ? std::optional(FileRef{}) : std::nullopt, ""};
}

}  // namespace

TEST_CASE("a slope with a file is one of the user's own", "[criteria]") {
  CHECK(kind_of(named("slope", 1.0)) == CriterionKind::slope);
  CHECK(kind_of(named("slope", 1.0, true)) == CriterionKind::own);
  CHECK(kind_of(named("fishing", 1.0, true)) == CriterionKind::own);
}

TEST_CASE("a criterion without weight is scored, but does not count", "[criteria]") {
  Plan plan;
  plan.criteria = {named("growth", 2.0), named("access", 0.0), named("slope", 1.0, true)};
  CHECK(scores(plan, CriterionKind::growth));
  CHECK(weighs(plan, CriterionKind::growth));
  CHECK(scores(plan, CriterionKind::access));
  CHECK_FALSE(weighs(plan, CriterionKind::access));
  CHECK_FALSE(scores(plan, CriterionKind::slope));
  CHECK(weighs(plan, CriterionKind::own));
}
