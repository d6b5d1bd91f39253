// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "sites/along.hpp"
#include "sites/candidates.hpp"
#include "sites/field.hpp"
#include "sites/measure.hpp"
#include "sites/notes.hpp"
#include "sites/own_boxes.hpp"
#include "sites/select.hpp"
#include "sites/setbacks.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot {
namespace {

/// A place that the search chose.
Site found_site(const Survey& survey, const SiteSize& size, const Placed& placed) {
  std::array<XY, 4> points = placed.box.corners();
  survey.grid_to_lonlat.forward(points);
  SitePlace place{placed.box, {placed.box.centre(), placed.angle_deg, size}, placed.score, {}};
  std::transform(points.begin(), points.end(), place.corners.begin(), [](XY p) {
    return LonLat{p.x, p.y};
  });
  return measure_site(survey, place);
}

/// Numbers from 1, and names: S01 or A01 on, but for own boxes, which have theirs.
void number(std::vector<Site>& sites, char letter) {
  for (std::size_t i = 0; i < sites.size(); ++i) {
    sites[i].rank = static_cast<int>(i) + 1;
    if (sites[i].own == 0) {
      sites[i].name = fmt::format("{}{:02}", letter, sites[i].rank);
    }
  }
}

/// Places sites on one survey.
class Placing {
 public:
  explicit Placing(const Survey& survey)
      : survey_(survey),
        scale_(grid_scale(survey.grid, survey.grid_to_lonlat, survey.geodesy)),
        setbacks_(survey.closed, scale_),
        proximity_(survey.near, scale_, survey.grid_to_lonlat, survey.geodesy) {}

  [[nodiscard]] std::vector<Site> own() const {
    return own_sites(survey_, {setbacks_, proximity_, scale_},
                     own_boxes(survey_.plan, survey_.grid, survey_.grid_to_lonlat));
  }

  /// taken: the gap is kept to them; what is found is added.
  [[nodiscard]] SitesResult find(std::vector<SiteBox> taken) const {
    const Plan& plan = survey_.plan;
    const SiteSize size = site_size(plan.sites, plan.farm);
    const GroundMap ground = ground_of(plan, survey_.maps, size);
    // Lengths of the plan are true metres; on the grid they are a little longer or shorter.
    const SiteSize on_grid{size.length_m * scale_, size.width_m * scale_};
    const std::vector<std::int16_t> along = along_axis(on_grid);
    const std::vector<Footprint> footprints =
        along.empty() ? footprints_of(on_grid, survey_.grid.cell_m)
                      : footprints_of(on_grid, survey_.grid.cell_m, 180);
    const Siting siting{survey_.grid, on_grid,   plan.sites.gap_m * scale_,
                        footprints,   setbacks_, proximity_,
                        survey_.maps, along};
    SitesResult result;
    result.eligible_cells = ground.count.good;
    result.too_deep_for_size = ground.count.too_deep;
    Refusals refusals;
    if (layout_of(size, 0.0, plan.farm, plan.sites.line).lines > 0) {
      result.ranked = search(siting, size, {survey_.grid, survey_.maps, ground, Wanted::ranked},
                             taken, refusals, result.fitting_places);
      if (ground.count.unknown > 0) {
        Refusals unused;
        std::size_t places = 0;
        result.apart = search(siting, size, {survey_.grid, survey_.maps, ground, Wanted::apart},
                              taken, unused, places);
      }
    }
    number(result.ranked, 'S');
    number(result.apart, 'A');
    result.notes = notes_on(plan, size, ground.count, result, refusals);
    return result;
  }

 private:
  [[nodiscard]] std::vector<std::int16_t> along_axis(const SiteSize& on_grid) const {
    const std::span<const float> axis =
        survey_.plan.sites.along_current ? survey_.maps.axis_deg : std::span<const float>();
    return degrees_along(survey_.grid, axis,
                         grid_north(survey_.grid, survey_.grid_to_lonlat, survey_.geodesy),
                         on_grid);
  }

  /// The best places of one kind, measured.
  [[nodiscard]] std::vector<Site> search(const Siting& siting, const SiteSize& size,
                                         const GroundField& field, std::vector<SiteBox>& taken,
                                         Refusals& refusals, std::size_t& fitting) const {
    Candidates candidates(survey_.grid, field, siting.footprints, siting.along);
    fitting = candidates.fitting();
    std::vector<Site> sites;
    for (const Placed& place :
         select_places(candidates, siting, field, survey_.plan.sites.count, taken, refusals)) {
      sites.push_back(found_site(survey_, size, place));
    }
    return sites;
  }

  const Survey& survey_;
  double scale_;
  Setbacks setbacks_;
  Proximity proximity_;
};

}  // namespace

SitesResult place_sites(const Plan& plan, const Grid& grid, const ScoredMaps& maps,
                        std::span<const ClosedLayer> closed, std::span<const NearLayer> near,
                        std::span<const std::string> reason_names, Projector& grid_to_lonlat,
                        const Geodesy& geodesy) {
  const Survey survey{plan, grid, maps, closed, near, reason_names, grid_to_lonlat, geodesy};
  const Placing placing(survey);
  std::vector<Site> own = placing.own();
  const auto forbidden = std::stable_partition(own.begin(), own.end(),
                                               [](const Site& site) { return site.wrong.empty(); });
  std::vector<SiteBox> taken;
  std::for_each(own.begin(), forbidden,
                [&](const Site& site) { taken.emplace_back(site.corners_xy); });
  SitesResult result = placing.find(std::move(taken));
  result.ranked.insert(result.ranked.begin(), own.begin(), forbidden);
  std::stable_sort(result.ranked.begin(), result.ranked.end(),
                   [](const Site& a, const Site& b) { return a.score > b.score; });
  number(result.ranked, 'S');
  add_own_notes(own, result);
  result.apart.insert(result.apart.begin(), forbidden, own.end());
  return result;
}

SitesResult find_sites(const Plan& plan, const Grid& grid, const ScoredMaps& maps,
                       std::span<const ClosedLayer> closed, std::span<const NearLayer> near,
                       std::span<const std::string> reason_names, Projector& grid_to_lonlat,
                       const Geodesy& geodesy, std::span<const std::array<XY, 4>> held) {
  const Survey survey{plan, grid, maps, closed, near, reason_names, grid_to_lonlat, geodesy};
  std::vector<SiteBox> taken;
  for (const std::array<XY, 4>& corners : held) {
    taken.emplace_back(corners);
  }
  return Placing(survey).find(std::move(taken));
}

}  // namespace tidelot
