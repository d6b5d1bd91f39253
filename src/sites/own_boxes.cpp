// SPDX-License-Identifier: Apache-2.0
#include "sites/own_boxes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sites/fit.hpp"
#include "sites/inner_rectangle.hpp"
#include "sites/trial.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason.hpp"
#include "tidelot/criteria/reason_codes.hpp"

namespace tidelot {
namespace {

using Phrases = std::vector<std::string>;

constexpr double kRounding_m = 0.08;  // most that six decimals of a degree shift a place
constexpr double kNothing = 1e-6;     // of a cell
constexpr double kWhole = 1e-9;       // m; as in layout_of

std::string name_of(const OwnBox& own) { return fmt::format("OWN{}", own.number); }

/// The box as it is judged.
SiteBox judged(const OwnBox& own, const Keeping& keeping) {
  return SiteBox(own.box.inset(kRounding_m * keeping.scale));
}

/// What lies under an outline, in cells, each by the share that is covered.
struct Under {
  std::array<double, kGrounds> ground{};  ///< index = Ground; beyond the grid: outside
  std::array<double, 32> closed_by{};     ///< index = bit of closed.tif
  double score = 0.0;                     ///< of whole_score
  double area = 0.0;
  [[nodiscard]] double of(Ground kind) const { return ground[static_cast<std::size_t>(kind)]; }
};

void add_cell(const Survey& survey, const SiteSize& size, std::size_t i, double share,
              Under& under) {
  const Ground ground = ground_at(survey.plan, survey.maps, size, i);
  under.ground[static_cast<std::size_t>(ground)] += share;
  if (ground == Ground::good) {
    under.score += share * static_cast<double>(whole_score(survey.maps.suitability[i],
                                                           survey.maps.yield_kg_per_m[i]));
  }
  for (std::size_t bit = 0; ground == Ground::closed && bit < under.closed_by.size(); ++bit) {
    under.closed_by[bit] += ((survey.maps.closed[i] >> bit) & 1U) != 0 ? share : 0.0;
  }
}

Under under(const Survey& survey, const SiteSize& size, const Outline& outline) {
  Under all;
  for_each_covered(outline, [&](int row, int first, int last, double share) {
    for (int col = first; col <= last; ++col) {
      all.area += share;
      if (survey.grid.holds({col, row})) {
        add_cell(survey, size, survey.grid.index(col, row), share, all);
      } else {
        all.ground[static_cast<std::size_t>(Ground::outside)] += share;
      }
    }
  });
  return all;
}

/// What lies under the box, but for what only the rounding of its corners lets it touch.
Under faults_under(const Survey& survey, const SiteSize& size, const SiteBox& whole,
                   const SiteBox& judged) {
  Under all = under(survey, size, in_cells(whole.corners(), survey.grid));
  const Under held = under(survey, size, in_cells(judged.corners(), survey.grid));
  const auto keep = [](auto& parts, const auto& held_parts) {
    for (std::size_t i = 0; i < parts.size(); ++i) {
      parts[i] = held_parts[i] > kNothing ? parts[i] : 0.0;
    }
  };
  keep(all.ground, held.ground);
  keep(all.closed_by, held.closed_by);
  return all;
}

/// Where no site may lie, whatever is known.
void add_barred(const Survey& survey, const Under& under, Phrases& wrong) {
  const auto add = [&](double part, const std::string& what) {
    if (part > kNothing) {
      wrong.push_back(fmt::format("{} over {} of it", what, percent_of(part, under.area)));
    }
  };
  add(under.of(Ground::outside), survey.reason_names[reason::kOutside]);
  add(under.of(Ground::land), survey.reason_names[reason::kLand]);
  const std::vector<std::string> bits = closed_bit_names(survey.plan);
  for (std::size_t bit = 0; bit < bits.size(); ++bit) {
    add(under.closed_by[bit], bit < closed_bit::kFirstRule ? bits[bit] : "closed by " + bits[bit]);
  }
  add(under.of(Ground::poor),
      fmt::format("suitability below {}", shortest(survey.plan.sites.min_suitability)));
}

/// What the ranking needs and is not known: the depth and every rule, and most of the water.
void add_unknown(const Under& under, Phrases& wrong) {
  if (under.of(Ground::depth_unknown) > kNothing) {
    wrong.push_back(fmt::format("depth not known over {} of it",
                                percent_of(under.of(Ground::depth_unknown), under.area)));
  }
  if (under.of(Ground::rule_unknown) > kNothing) {
    wrong.push_back(fmt::format("whether a rule closes it is not known over {} of it",
                                percent_of(under.of(Ground::rule_unknown), under.area)));
  }
  const double unknown = under.of(Ground::property_unknown) + under.of(Ground::depth_unknown) +
                         under.of(Ground::rule_unknown);
  if (under.of(Ground::property_unknown) > kNothing && unknown > kMostUnknown * under.area) {
    wrong.push_back(fmt::format("water not fully known over {} of it",
                                percent_of(under.of(Ground::property_unknown), under.area)));
  }
}

void add_layout(const Survey& survey, const SiteSize& size, const Under& under, Phrases& wrong) {
  const FarmPlan& farm = survey.plan.farm;
  const double least = 2.0 * farm.margin_m;
  if (size.length_m <= least || (!survey.plan.sites.line && size.width_m < least - kWhole)) {
    wrong.push_back(
        fmt::format("no room for a line inside margins of {} m", shortest(farm.margin_m)));
  } else if (under.of(Ground::too_deep) > kNothing) {
    wrong.push_back(
        fmt::format("too short for its depth over {} of it: the anchor legs leave no line",
                    percent_of(under.of(Ground::too_deep), under.area)));
  }
}

/// Up, so that what is missing is never told as nothing; but 30 m with its rounding stay 30.
double tenths_up(double m) { return std::ceil(10.0 * m - 1e-6) / 10.0; }

/// Setbacks to the true shapes and the closing [[near]] tests.
void add_distances(const Survey& survey, const Keeping& keeping, const SiteBox& box,
                   Phrases& wrong) {
  const std::uint16_t season = season_at(survey.grid, survey.maps, box.centre());
  for (const Setbacks::Broken& broken : keeping.setbacks.broken(box, season)) {
    wrong.push_back(fmt::format("within the setback of {} by {} m",
                                survey.plan.closed[broken.rule].name,
                                fixed(tenths_up(broken.missing_m / keeping.scale), 1)));
  }
  if (keeping.proximity.allows(box)) {
    return;
  }
  for (const ShapesNear& found :
       shapes_near(box, survey.near, survey.grid_to_lonlat, survey.geodesy)) {
    const NearPlan& test = survey.near[static_cast<std::size_t>(found.test)].plan;
    if (found.beyond && test.closes) {
      wrong.push_back(too_near(found, test));
    }
  }
}

void add_others(const Survey& survey, const Keeping& keeping, const SiteBox& box, const OwnBox& own,
                std::span<const OwnBox> all, Phrases& wrong) {
  const double gap = survey.plan.sites.gap_m * keeping.scale;
  for (const OwnBox& other : all) {
    if (other.number == own.number) {
      continue;
    }
    const SiteBox there = judged(other, keeping);
    if (overlap(box, there)) {
      wrong.push_back("overlaps " + name_of(other));
    } else if (distance_m(box, there) < gap) {
      wrong.push_back(
          fmt::format("nearer than {} m to {}", shortest(survey.plan.sites.gap_m), name_of(other)));
    }
  }
}

/// The rectangle that holds the gear, in true metres at its place.
GearRectangle gear_rectangle(const Survey& survey, const SiteBox& box) {
  const InnerRectangle inner = inner_rectangle(box);
  const Axes axes(inner.centre, inner.angle_deg);
  const double along = inner.size.length_m / 2.0;
  const double across = inner.size.width_m / 2.0;
  const auto length = [&](XY from, XY to) {
    return ground_length(axes.on_grid(from), axes.on_grid(to), survey.grid_to_lonlat,
                         survey.geodesy);
  };
  return {inner.centre,
          inner.angle_deg,
          {length({-along, 0.0}, {along, 0.0}), length({0.0, -across}, {0.0, across})}};
}

Site own_site(const Survey& survey, const Keeping& keeping, const OwnBox& own,
              std::span<const OwnBox> all) {
  const GearRectangle gear = gear_rectangle(survey, own.box);
  const Under scored = under(survey, gear.size, inside(own.box, survey.grid));
  Site site = measure_site(survey, {own.box, gear, std::llround(scored.score), own.corners});
  site.own = own.number;
  site.name = name_of(own);
  const SiteBox box = judged(own, keeping);
  const Under faults = faults_under(survey, gear.size, own.box, box);
  add_barred(survey, faults, site.wrong);
  add_unknown(faults, site.wrong);
  add_layout(survey, gear.size, faults, site.wrong);
  add_distances(survey, keeping, box, site.wrong);
  add_others(survey, keeping, box, own, all, site.wrong);
  if (site.wrong.empty() && !(site.score > 0.0 && site.layout.line_m > 0.0)) {
    site.wrong.emplace_back("it would yield nothing");
  }
  return site;
}

[[noreturn]] void refuse(std::size_t box) {
  throw Error(Fault::plan,
              fmt::format("sites.own_corners: box {} lies beyond the area of the plan; "
                          "move it, or widen the area",
                          box + 1));
}

}  // namespace

std::vector<OwnBox> own_boxes(const Plan& plan, const Grid& grid, Projector& grid_to_lonlat) {
  std::vector<OwnBox> boxes;
  for (const std::array<LonLat, 4>& given : plan.sites.own_boxes) {
    std::array<XY, 4> points{};
    std::transform(given.begin(), given.end(), points.begin(), [](LonLat p) {
      return XY{p.lon, p.lat};
    });
    grid_to_lonlat.inverse(points);
    for (const XY p : points) {
      // The bounds' edges bend on the grid: a corner on one may lie a little beyond it.
      if (!(p.x > grid.west - grid.cell_m && p.x < grid.east() + grid.cell_m &&
            p.y > grid.south() - grid.cell_m && p.y < grid.north + grid.cell_m)) {
        refuse(boxes.size());
      }
    }
    if (!grid.holds(grid.cell_of(SiteBox(points).centre()))) {
      refuse(boxes.size());
    }
    OwnBox own{static_cast<int>(boxes.size()) + 1, SiteBox(points), {}};
    for (std::size_t i = 0; i < points.size(); ++i) {
      const auto at = std::find(points.begin(), points.end(), own.box.corners()[i]);
      own.corners[i] = given[static_cast<std::size_t>(at - points.begin())];
    }
    boxes.push_back(own);
  }
  return boxes;
}

std::vector<Site> own_sites(const Survey& survey, const Keeping& keeping,
                            std::span<const OwnBox> boxes) {
  std::vector<Site> sites;
  for (const OwnBox& own : boxes) {
    sites.push_back(own_site(survey, keeping, own, boxes));
  }
  return sites;
}

}  // namespace tidelot
