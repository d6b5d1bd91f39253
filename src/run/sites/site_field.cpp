// SPDX-License-Identifier: Apache-2.0
#include "run/sites/site_field.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <set>
#include <string>

#include "tidelot/core/geometry.hpp"

namespace tidelot::run {
namespace {

/// From a place to a site's rectangle, in the grid's metres; 0 inside.
double distance_to_site(XY place, const Site& site) {
  Polygon rectangle;
  rectangle.outer.assign(site.corners_xy.begin(), site.corners_xy.end());
  rectangle.outer.push_back(site.corners_xy[0]);
  if (contains(rectangle, place)) {
    return 0.0;
  }
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i + 1 < rectangle.outer.size(); ++i) {
    least = std::min(least, distance_to_segment(place, rectangle.outer[i], rectangle.outer[i + 1]));
  }
  return least;
}

std::optional<FieldVisits> visits_of(const Site& site, std::span<const FieldVisit> visits,
                                     double reach) {
  std::set<std::string> days;
  FieldVisits out;
  for (const FieldVisit& visit : visits) {
    if (distance_to_site(visit.at, site) <= reach) {
      days.insert(fmt::format("{:04}-{:02}-{:02}", visit.year, visit.month, visit.day));
      out.months = static_cast<std::uint16_t>(out.months | (1U << unsigned(visit.month - 1)));
    }
  }
  if (days.empty()) {
    return std::nullopt;
  }
  out.last = *days.rbegin();
  out.days = static_cast<int>(days.size());
  return out;
}

}  // namespace

void mark_field_checked(SitesResult& sites, std::span<const FieldVisit> visits, double scale) {
  for (std::vector<Site>* list : {&sites.ranked, &sites.apart}) {
    for (Site& site : *list) {
      site.field = visits_of(site, visits, kFieldReach_m * scale);
    }
  }
}

}  // namespace tidelot::run
