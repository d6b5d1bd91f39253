// SPDX-License-Identifier: Apache-2.0
#include "run/sites/site_field.hpp"

#include <catch2/catch.hpp>

using namespace tidelot;

namespace {

/// 100 m by 40 m from the origin of the grid.
Site site() {
  Site out;
  out.corners_xy = {XY{0, 40}, XY{100, 40}, XY{100, 0}, XY{0, 0}};
  return out;
}

std::optional<FieldVisits> marked(const std::vector<FieldVisit>& visits, double scale = 1.0) {
  SitesResult sites;
  sites.ranked = {site()};
  sites.apart = {site()};
  run::mark_field_checked(sites, visits, scale);
  CHECK(sites.apart[0].field.has_value() == sites.ranked[0].field.has_value());
  return sites.ranked[0].field;
}

}  // namespace

TEST_CASE("a site is field-checked where a reading lies in it or within 50 m of its edge") {
  CHECK(marked({{{50, 20}, 2026, 6, 1}}));
  CHECK(marked({{{149.9, 20}, 2026, 6, 1}}));
  CHECK_FALSE(marked({{{150.1, 20}, 2026, 6, 1}}));
  CHECK_FALSE(marked({{{140, 80}, 2026, 6, 1}}));  // 57 m from the corner
  CHECK_FALSE(marked({{{149.9, 20}, 2026, 6, 1}}, 0.99));
  CHECK_FALSE(marked({}));
}

TEST_CASE("visits are days, whatever was read on them") {
  const auto field = marked({{{50, 20}, 2026, 7, 14},
                             {{60, 20}, 2026, 7, 14},
                             {{60, 20}, 2026, 6, 2},
                             {{60, 20}, 2025, 7, 30},
                             {{900, 20}, 2026, 9, 30}});
  REQUIRE(field);
  CHECK(field->last == "2026-07-14");
  CHECK(field->days == 3);
  CHECK(field->months == ((1U << 5U) | (1U << 6U)));
}
