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
#include "tidelot/core/grid_vector.hpp"
#include "tidelot/sites/site_search.hpp"

namespace tidelot {
namespace {

/// A place that the search chose.
Site found_site(const Survey& survey, const Placed& placed) {
  const SiteSize size = site_size(survey.plan.sites, survey.plan.farm);
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

/// What the search needs whatever the rules are.
struct Lattice {
  double scale;  ///< grid length over ground length
  // Lengths of the plan are true metres; on the grid they are a little longer or shorter.
  SiteSize on_grid;
  GridVector<std::int16_t> along;
  std::vector<Footprint> footprints;

  explicit Lattice(const Survey& survey)
      : scale(grid_scale(survey.grid, survey.grid_to_lonlat, survey.geodesy)) {
    const SiteSize size = site_size(survey.plan.sites, survey.plan.farm);
    on_grid = {size.length_m * scale, size.width_m * scale};
    if (survey.plan.sites.along_current) {
      along =
          degrees_along(survey.grid, survey.maps.axis_deg,
                        grid_north(survey.grid, survey.grid_to_lonlat, survey.geodesy), on_grid);
    }
    footprints = along.empty() ? footprints_of(on_grid, survey.grid.cell_m)
                               : footprints_of(on_grid, survey.grid.cell_m, 180);
  }
};

Waters waters_of(const Survey& survey) {
  return {survey.plan, survey.grid, survey.maps, site_size(survey.plan.sites, survey.plan.farm)};
}

/// Has a site of this size room for a line in the shallowest water?
bool holds_line(const Plan& plan) {
  return layout_of(site_size(plan.sites, plan.farm), 0.0, plan.farm, plan.sites.line).lines > 0;
}

/// Places sites on one survey.
class Placing {
 public:
  Placing(const Survey& survey, const Lattice& lattice, const SetbackEdges& edges)
      : survey_(survey),
        lattice_(lattice),
        setbacks_(edges, survey.closed, lattice.scale),
        proximity_(survey.near, lattice.scale, survey.grid_to_lonlat, survey.geodesy) {}

  [[nodiscard]] std::vector<Site> own() const {
    return own_sites(survey_, {setbacks_, proximity_, lattice_.scale},
                     own_boxes(survey_.plan, survey_.grid, survey_.grid_to_lonlat));
  }

  /// taken: the gap is kept to them; what is found is added.
  /// memo: of the ranked sites' boxes.
  [[nodiscard]] SitesResult find(const GroundSurvey& ground, std::vector<SiteBox> taken,
                                 FitMemo& memo) const {
    const Plan& plan = survey_.plan;
    const Waters waters = waters_of(survey_);
    SitesResult result;
    result.eligible_cells = ground.count.good;
    result.too_deep_for_size = ground.count.too_deep;
    Refusals refusals;
    if (holds_line(plan)) {
      const bool all_known = ground.count.unknown == 0;
      const GroundField known(waters, Wanted::ranked, all_known);
      result.ranked = search(Fits(known, memo), ground.ceiling, plan.sites.count, taken, refusals,
                             &result.fitting_places);
      if (!all_known) {
        Refusals unused;
        FitMemo own;
        const GroundField apart(waters, Wanted::apart, all_known);
        result.apart =
            search(Fits(apart, own), ground.ceiling, plan.sites.count, taken, unused, nullptr);
      }
    }
    number(result.ranked, 'S');
    number(result.apart, 'A');
    result.notes = notes_on(plan, waters.size, ground.count, result, refusals);
    return result;
  }

  /// The best places of one kind, up to count, measured. fitting: where the places that fit are
  /// counted if fewer were found.
  [[nodiscard]] std::vector<Site> search(const Fits& fits, const Ceiling& ceiling, int count,
                                         std::vector<SiteBox>& taken, Refusals& refusals,
                                         std::size_t* fitting) const {
    const Siting siting{
        survey_.grid,        lattice_.on_grid, survey_.plan.sites.gap_m * lattice_.scale,
        lattice_.footprints, setbacks_,        proximity_,
        survey_.maps,        lattice_.along};
    Candidates candidates(survey_.grid, fits.field(), lattice_.footprints, ceiling, lattice_.along);
    const auto places = select_places(candidates, siting, fits, count, taken, refusals);
    if (fitting != nullptr && static_cast<int>(places.size()) < count) {
      *fitting = candidates.fitting();
    }
    std::vector<Site> sites;
    sites.reserve(places.size());
    for (const Placed& place : places) {
      sites.push_back(found_site(survey_, place));
    }
    return sites;
  }

 private:
  const Survey& survey_;
  const Lattice& lattice_;
  Setbacks setbacks_;
  Proximity proximity_;
};

/// Bytes of a cell that are looked at to tell whether it turns.
constexpr std::size_t kTurnBytes = 8;

/// Is a cell that nothing closes good enough under one of two plans only?
bool turns(const ScoredMaps& maps, std::size_t i, float least, float other_least) {
  const float suitability = maps.suitability[i];
  return (suitability < least) != (suitability < other_least) && maps.closed[i] == 0;
}

/// The survey as planned, brought up to date where cells changed; of its counts only whether
/// anything is unknown holds.
struct ChangedGround {
  GroundSurvey survey;
  ChangedBlocks blocks;

  ChangedGround(const GroundSurvey& before, const Waters& planned, const Waters& waters,
                std::span<const std::size_t> changed)
      : survey(before), blocks(waters.grid) {
    for (const std::size_t i : changed) {
      look_again(waters, i);
    }
    const auto least = static_cast<float>(planned.plan.sites.min_suitability);
    const auto other_least = static_cast<float>(waters.plan.sites.min_suitability);
    for (int row = 0; least != other_least && row < waters.grid.rows; ++row) {
      for (int col = 0; col < waters.grid.cols; ++col) {
        const std::size_t i = waters.grid.index(col, row);
        if (turns(waters.maps, i, least, other_least)) {
          look_again(waters, i);
        }
      }
      walked_over(static_cast<std::size_t>(waters.grid.cols) * kTurnBytes);
    }
  }

 private:
  void look_again(const Waters& waters, std::size_t i) {
    const auto cols = static_cast<std::size_t>(waters.grid.cols);
    const int row = static_cast<int>(i / cols);
    const int col = static_cast<int>(i % cols);
    const Ground ground = ground_at(waters.plan, waters.maps, waters.size, i);
    if (ground == Ground::good) {
      survey.ceiling.add_good(col, row, suitability_yield(waters.maps, i));
    }
    survey.ceiling.add_other(col, row);
    survey.count.unknown += ground > Ground::good ? 1 : 0;
    blocks.add(col, row);
  }
};

}  // namespace

struct SiteSearch::Parts {
  ScoredMaps maps;
  Survey survey;
  Lattice lattice;
  SetbackEdges edges;
  GroundSurvey ground;
  FitMemo memo;  ///< of the ranked sites, filled by place()
  Parts(const Plan& plan, const Grid& grid, const ScoredMaps& scored,
        std::span<const ClosedLayer> closed, std::span<const NearLayer> near,
        std::span<const std::string> names, Projector& projector, const Geodesy& geodesy)
      : maps(scored),
        survey{plan, grid, maps, closed, near, names, projector, geodesy},
        lattice(survey),
        edges(closed),
        ground(survey_ground(waters_of(survey))) {}
};

SiteSearch::SiteSearch(const Plan& plan, const Grid& grid, const ScoredMaps& maps,
                       std::span<const ClosedLayer> closed, std::span<const NearLayer> near,
                       std::span<const std::string> reason_names, Projector& grid_to_lonlat,
                       const Geodesy& geodesy)
    : parts_(std::make_unique<Parts>(plan, grid, maps, closed, near, reason_names, grid_to_lonlat,
                                     geodesy)) {}

SiteSearch::~SiteSearch() = default;

SitesResult SiteSearch::place() {
  const Placing placing(parts_->survey, parts_->lattice, parts_->edges);
  std::vector<Site> own = placing.own();
  const auto forbidden = std::stable_partition(own.begin(), own.end(),
                                               [](const Site& site) { return site.wrong.empty(); });
  std::vector<SiteBox> taken;
  std::for_each(own.begin(), forbidden,
                [&](const Site& site) { taken.emplace_back(site.corners_xy); });
  SitesResult result = placing.find(parts_->ground, std::move(taken), parts_->memo);
  result.ranked.insert(result.ranked.begin(), own.begin(), forbidden);
  std::stable_sort(result.ranked.begin(), result.ranked.end(),
                   [](const Site& a, const Site& b) { return a.score > b.score; });
  number(result.ranked, 'S');
  add_own_notes(own, result);
  result.apart.insert(result.apart.begin(), forbidden, own.end());
  return result;
}

std::optional<Site> SiteSearch::best(const Other& other, std::span<const std::array<XY, 4>> held,
                                     Projector& grid_to_lonlat) const {
  const Survey& planned = parts_->survey;
  if (!holds_line(other.plan)) {
    return std::nullopt;
  }
  const Survey survey{other.plan, planned.grid,         other.maps,     other.closed,
                      other.near, planned.reason_names, grid_to_lonlat, planned.geodesy};
  const Waters waters = waters_of(survey);
  const ChangedGround ground(parts_->ground, waters_of(planned), waters, other.changed);
  const GroundField field(waters, Wanted::ranked, ground.survey.count.unknown == 0);
  FitMemo own;
  const Fits fits(field, own, parts_->memo, ground.blocks);
  std::vector<SiteBox> taken;
  for (const std::array<XY, 4>& corners : held) {
    taken.emplace_back(corners);
  }
  Refusals unused;
  const std::vector<Site> found =
      Placing(survey, parts_->lattice, parts_->edges)
          .search(fits, ground.survey.ceiling, 1, taken, unused, nullptr);
  return found.empty() ? std::nullopt : std::optional(found.front());
}

SitesResult place_sites(const Plan& plan, const Grid& grid, const ScoredMaps& maps,
                        std::span<const ClosedLayer> closed, std::span<const NearLayer> near,
                        std::span<const std::string> reason_names, Projector& grid_to_lonlat,
                        const Geodesy& geodesy) {
  return SiteSearch(plan, grid, maps, closed, near, reason_names, grid_to_lonlat, geodesy).place();
}

}  // namespace tidelot
