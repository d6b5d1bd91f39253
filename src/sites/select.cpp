// SPDX-License-Identifier: Apache-2.0
#include "sites/select.hpp"

#include <algorithm>
#include <cmath>

namespace tidelot {
namespace {

constexpr double kEdge = 1e-6;  // m

double between_centres(XY a, XY b) { return std::hypot(a.x - b.x, a.y - b.y); }

/// Too near at any angle: every rectangle holds the disc of half its width about its centre.
bool never_keeps_gap(XY centre, const Siting& siting, const std::vector<Rectangle>& taken) {
  const double least = siting.gap_m + std::min(siting.size.width_m, siting.size.length_m);
  return std::any_of(taken.begin(), taken.end(), [&](const Rectangle& other) {
    return between_centres(centre, other.centre()) < least - kEdge;
  });
}

bool keeps_gap(const Rectangle& rectangle, const Siting& siting,
               const std::vector<Rectangle>& taken) {
  const double plenty = siting.gap_m + std::hypot(siting.size.length_m, siting.size.width_m);
  return std::all_of(taken.begin(), taken.end(), [&](const Rectangle& other) {
    return between_centres(rectangle.centre(), other.centre()) > plenty ||
           (!overlap(rectangle, other) && distance_m(rectangle, other) >= siting.gap_m - kEdge);
  });
}

/// Months in which gear would lie at a place, by its centre; all where that is not known.
std::uint16_t season_at(const Siting& siting, const Candidate& place) {
  const std::size_t i = siting.grid.index(place.col, place.row);
  const float first = siting.maps.outplant[i];
  const float last = siting.maps.last_haul[i];
  if (std::isnan(first) || std::isnan(last)) {
    return 0xFFF;
  }
  const int over_new_year = last < first ? kDaysPerYear : 0;
  return months_between(static_cast<int>(first), static_cast<int>(last) + over_new_year);
}

}  // namespace

std::vector<Placed> select_places(Candidates& candidates, const Siting& siting, int count,
                                  std::vector<Rectangle>& taken, Refusals& refusals) {
  std::vector<Placed> places;
  while (static_cast<int>(places.size()) < count) {
    const std::optional<Candidate> best = candidates.pop();
    if (!best) {
      break;
    }
    const XY centre = siting.grid.centre(best->col, best->row);
    if (never_keeps_gap(centre, siting, taken)) {
      ++refusals.by_gap;
      continue;
    }
    const Footprint& footprint = siting.footprints[static_cast<std::size_t>(best->angle)];
    const Rectangle rectangle(centre, footprint.angle_deg, siting.size);
    if (!keeps_gap(rectangle, siting, taken)) {
      ++refusals.by_gap;
      candidates.next_angle(*best);
    } else if (!siting.setbacks.kept_by(rectangle, season_at(siting, *best))) {
      ++refusals.by_setback;
      candidates.next_angle(*best);
    } else if (!siting.proximity.allows(rectangle)) {
      ++refusals.by_near;
      candidates.next_angle(*best);
    } else {
      places.push_back({*best, rectangle});
      taken.push_back(rectangle);
    }
  }
  return places;
}

}  // namespace tidelot
