// SPDX-License-Identifier: Apache-2.0
#include "sites/measure.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <span>

#include "sites/along.hpp"
#include "sites/coverage.hpp"
#include "sites/printed.hpp"
#include "sites/proximity.hpp"
#include "sites/surroundings.hpp"
#include "tidelot/core/geometry.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/criteria/reason_codes.hpp"
#include "tidelot/sites/positions.hpp"

namespace tidelot {
namespace {

constexpr double kSquareMetresPerHectare = 10'000.0;
constexpr double kNothing = 1e-6;  // of a cell
constexpr double kNotKnown = std::numeric_limits<double>::quiet_NaN();

/// Mean and range of the values that are known, each by its weight.
struct Tally {
  double sum = 0.0;
  double low = 0.0;
  double high = 0.0;
  double weight = 0.0;
  void add(float value, double by) {
    if (std::isnan(value)) {
      return;
    }
    const auto v = static_cast<double>(value);
    low = weight == 0.0 ? v : std::min(low, v);
    high = weight == 0.0 ? v : std::max(high, v);
    sum += v * by;
    weight += by;
  }
  [[nodiscard]] double mean() const { return weight == 0.0 ? 0.0 : sum / weight; }
};

/// What lies under a site. Means are over its area, each cell by the share of it that is covered;
/// the range of depths is over the cells whose centre lies in the site, over all that it touches
/// where there is none.
struct Covered {
  Tally suitability, yield, nitrogen, depth, depth_touched;
  std::array<double, 256> reasons{};
  std::array<double, 256> depth_sources{};
  double area = 0.0;  ///< in cells, and so the rest
  double property_unknown = 0.0;
  double depth_unknown = 0.0;
  double rule_unknown = 0.0;
  double patched = 0.0;   ///< values made up from part of the neighbours
  std::size_t cells = 0;  ///< whose centre lies in the site
  AxisMean axis;
  std::optional<std::size_t> roughest;  ///< cell with the highest waves once in fifty years
  void add(const Survey& survey, const SiteSize& size, std::size_t i, double share);
  void add_centre(const Survey& survey, std::size_t i);
  void add_waves(const Survey& survey, std::size_t i);
};

void Covered::add(const Survey& survey, const SiteSize& size, std::size_t i, double share) {
  suitability.add(survey.maps.suitability[i], share);
  yield.add(survey.maps.yield_kg_per_m[i], share);
  nitrogen.add(survey.maps.nitrogen_g_per_m[i], share);
  depth_touched.add(survey.maps.depth_low_water[i], share);
  reasons[survey.maps.reason[i]] += share;
  add_waves(survey, i);
  if (!survey.maps.depth_source.empty()) {
    depth_sources[survey.maps.depth_source[i]] += share;
  }
  area += share;
  const Ground ground = ground_at(survey.plan, survey.maps, size, i);
  property_unknown += ground == Ground::property_unknown ? share : 0.0;
  depth_unknown += ground == Ground::depth_unknown ? share : 0.0;
  rule_unknown += ground == Ground::rule_unknown ? share : 0.0;
  patched += !survey.maps.coverage.empty() && survey.maps.coverage[i] < 1.0F ? share : 0.0;
}

void Covered::add_centre(const Survey& survey, std::size_t i) {
  ++cells;
  depth.add(survey.maps.depth_low_water[i], 1.0);
  if (!survey.maps.axis_deg.empty()) {
    axis.add(static_cast<double>(survey.maps.axis_deg[i]));
  }
}

void Covered::add_waves(const Survey& survey, std::size_t i) {
  if (survey.maps.waves == nullptr || std::isnan(survey.maps.waves->height_50y_m[i])) {
    return;
  }
  const std::span<const float> height = survey.maps.waves->height_50y_m;
  if (!roughest || height[i] > height[*roughest]) {
    roughest = i;
  }
}

Covered covered_by(const Survey& survey, const SitePlace& place) {
  const std::array<XY, 4>& corners = place.box.corners();
  Polygon outline{{corners.begin(), corners.end()}, {}};
  outline.outer.push_back(corners[0]);
  Covered covered;
  for_each_covered(in_cells(corners, survey.grid), [&](int row, int first, int last, double share) {
    for (int col = first; col <= last; ++col) {
      if (!survey.grid.holds({col, row})) {
        continue;
      }
      covered.add(survey, place.gear.size, survey.grid.index(col, row), share);
      if (contains(outline, survey.grid.centre(col, row))) {
        covered.add_centre(survey, survey.grid.index(col, row));
      }
    }
  });
  if (covered.depth.weight == 0.0) {
    covered.depth = covered.depth_touched;
  }
  return covered;
}

/// Corners and centre rounded as printed, and the area of the corners so rounded.
void add_position(const Survey& survey, const SitePlace& place, Site& site) {
  std::transform(place.corners.begin(), place.corners.end(), site.corners.begin(),
                 printed_position);
  site.centre_xy = place.box.centre();
  site.centre = printed(site.centre_xy, survey.grid_to_lonlat);
  site.corners_xy = place.box.corners();
  site.area_ha = survey.geodesy.area_m2(site.corners) / kSquareMetresPerHectare;
  site.area_unrounded_ha = survey.geodesy.area_m2(place.corners) / kSquareMetresPerHectare;
  print_position(site, {}, survey.geodesy);
}

int whole_or_zero(float value) {
  return std::isnan(value) ? 0 : static_cast<int>(std::lround(value));
}

/// What is read from the cell under the centre.
void add_centre(const ScoredMaps& maps, std::size_t cell, Site& site) {
  site.outplant = whole_or_zero(maps.outplant[cell]);
  site.last_haul = whole_or_zero(maps.last_haul[cell]);
  site.harvests = whole_or_zero(maps.harvests[cell]);
  if (!maps.landing_m.empty() && !std::isnan(maps.landing_m[cell])) {
    site.landing_km = static_cast<double>(maps.landing_m[cell]) / 1000.0;
  }
}

/// The layout hangs on the deepest water under the site: its anchor legs are the longest.
void add_harvest(const Survey& survey, const Covered& covered, Site& site) {
  site.suitability = covered.suitability.mean();
  site.yield_kg_per_m = covered.yield.mean();
  site.nitrogen_g_per_m = covered.nitrogen.mean();
  if (covered.depth.weight > 0.0) {
    site.depth_min_m = covered.depth.low;
    site.depth_max_m = covered.depth.high;
    site.depth_mean_m = covered.depth.mean();
    site.layout = layout_of(site.size, site.depth_max_m + survey.plan.depth.tidal_range_m,
                            survey.plan.farm, survey.plan.sites.line);
  } else {
    site.depth_min_m = site.depth_max_m = site.depth_mean_m = kNotKnown;
  }
  site.yield_without_t = site.layout.line_m * site.yield_kg_per_m / 1000.0;
  site.nitrogen_without_kg = site.layout.line_m * site.nitrogen_g_per_m / 1000.0;
  site.yield_t = site.yield_without_t;
  site.nitrogen_kg = site.nitrogen_without_kg;
}

/// "survey 2021", or "survey 2021 80 %, chart 20 %" in the order of trust.
std::string depth_source_of(const Survey& survey, const Covered& covered) {
  const auto sources = survey.plan.depth.sources();
  if (survey.maps.depth_source.empty()) {
    return sources[0].title();
  }
  std::string all;
  for (std::size_t i = 0; i < sources.size(); ++i) {
    const double part = covered.depth_sources[i];
    if (part > covered.area - kNothing) {
      return sources[i].title();
    }
    if (part > kNothing) {
      all += fmt::format("{}{} {} %", all.empty() ? "" : ", ", sources[i].title(),
                         fixed(100.0 * part / covered.area, 0));
    }
  }
  return all;
}

void add_unknown(const Covered& covered, Site& site) {
  const double unknown = covered.property_unknown + covered.depth_unknown + covered.rule_unknown;
  site.unknown_share = unknown / covered.area;
  if (covered.depth_unknown > kNothing) {
    site.cautions.push_back("depth not known over " +
                            percent_of(covered.depth_unknown, covered.area) + " of it");
  }
  if (covered.rule_unknown > kNothing) {
    site.cautions.push_back("whether a rule closes it is not known over " +
                            percent_of(covered.rule_unknown, covered.area) + " of it");
  }
  if (covered.property_unknown > kNothing) {
    site.cautions.push_back("water not fully known over " +
                            percent_of(covered.property_unknown, covered.area) + " of it");
  }
}

/// What is not known over which part of it, and what was patched.
void add_gaps(const Survey& survey, const Covered& covered, Site& site) {
  for (std::size_t code = 0; code < covered.reasons.size(); ++code) {
    if (covered.reasons[code] > kNothing && reason::says_unknown(code)) {
      site.gaps.push_back(survey.reason_names[code] + " over " +
                          percent_of(covered.reasons[code], covered.area) + " of it");
    }
  }
  if (covered.patched > kNothing) {
    site.gaps.push_back("a layer ends near: values rest on part of their neighbours over " +
                        percent_of(covered.patched, covered.area) + " of it");
  }
}

void add_caution_rules(std::span<const ClosedLayer> closed, Site& site) {
  for (const RuleDistance& near : site.rules) {
    const ClosedPlan& rule = closed[static_cast<std::size_t>(near.rule)].plan;
    if (!rule.applies || !near.cautioned) {
      continue;
    }
    site.cautions.push_back(
        near.distance_m == 0.0
            ? fmt::format("caution: {} touches the site", rule.name)
            : fmt::format("caution: {} within {} m", rule.name, shortest(near.setback_m)));
  }
}

void add_near_cautions(std::span<const NearLayer> near, Site& site) {
  for (const ShapesNear& found : site.near) {
    const NearPlan& test = near[static_cast<std::size_t>(found.test)].plan;
    if (found.beyond) {
      site.cautions.push_back(too_near(found, test));
    }
  }
}

}  // namespace

double ground_length(XY a, XY b, Projector& grid_to_lonlat, const Geodesy& geodesy) {
  std::array<XY, 2> ends{a, b};
  grid_to_lonlat.forward(ends);
  return geodesy.distance_m({ends[0].x, ends[0].y}, {ends[1].x, ends[1].y});
}

std::string too_near(const ShapesNear& found, const NearPlan& test) {
  return fmt::format("{} within {} m of: {} (at most {})", found.within, shortest(test.distance_m),
                     test.name, test.count);
}

std::string percent_of(double part, double whole) {
  return fixed(std::ceil(100.0 * part / whole - 1e-9), 0) + " %";
}

double grid_scale(const Grid& grid, Projector& grid_to_lonlat, const Geodesy& geodesy) {
  constexpr double kHalf = 500.0;  // m
  const XY middle{(grid.west + grid.east()) / 2.0, (grid.south() + grid.north) / 2.0};
  const double x = ground_length({middle.x - kHalf, middle.y}, {middle.x + kHalf, middle.y},
                                 grid_to_lonlat, geodesy);
  const double y = ground_length({middle.x, middle.y - kHalf}, {middle.x, middle.y + kHalf},
                                 grid_to_lonlat, geodesy);
  return 2.0 * kHalf / std::sqrt(x * y);
}

Site measure_site(const Survey& survey, const SitePlace& place) {
  const Covered covered = covered_by(survey, place);
  Site site;
  site.size = place.gear.size;
  site.angle_deg = place.gear.angle_deg;
  site.axis_deg = covered.axis.mean();
  site.score = score_of_whole(place.score);
  site.cells = covered.cells;
  if (covered.roughest) {
    site.waves = place_waves(*survey.maps.waves, *covered.roughest,
                             static_cast<double>(survey.maps.depth_low_water[*covered.roughest]),
                             survey.plan);
  }
  add_position(survey, place, site);
  add_harvest(survey, covered, site);
  site.gear = farm_gear(site, place.gear.centre, survey.plan.farm, survey.plan.report.marker_gap_m,
                        survey.grid_to_lonlat, survey.geodesy);
  const Cell middle = survey.grid.cell_of(place.box.centre());
  add_centre(survey.maps, survey.grid.index(middle.col, middle.row), site);
  site.rules = rule_distances(place.box, survey.closed, survey.grid_to_lonlat, survey.geodesy);
  const auto most = std::max_element(covered.reasons.begin(), covered.reasons.end());
  site.limited_by = survey.reason_names[static_cast<std::size_t>(most - covered.reasons.begin())];
  site.depth_source = depth_source_of(survey, covered);
  add_caution_rules(survey.closed, site);
  site.near = shapes_near(place.box, survey.near, survey.grid_to_lonlat, survey.geodesy);
  add_near_cautions(survey.near, site);
  add_unknown(covered, site);
  add_gaps(survey, covered, site);
  add_directions(survey, place.box, site);
  return site;
}

}  // namespace tidelot
