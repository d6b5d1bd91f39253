// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <array>
#include <cmath>

#include "geoio/geoio.hpp"
#include "run/area.hpp"
#include "run/cell_season.hpp"
#include "run/sites/site_limits.hpp"
#include "run/tiles/grid_parts.hpp"
#include "run/tiles/wave_stage.hpp"
#include "run/tiles/whole_grid.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/run.hpp"

namespace tidelot {
namespace {

Cell cell_at(const Plan& plan, run::Area& area, LonLat at) {
  const Grid& grid = area.layers->grid();
  std::array<XY, 1> place{XY{at.lon, at.lat}};
  area.to_lonlat->inverse(place);
  const bool finite = std::isfinite(place[0].x) && std::isfinite(place[0].y);
  const Cell cell = finite ? grid.cell_of(place[0]) : Cell{-1, -1};
  if (!grid.holds(cell)) {
    throw Error(Fault::plan,
                fmt::format("--at {},{}: lies outside the area of {}; write longitude, latitude of "
                            "a place inside [area] bounds",
                            at.lon, at.lat, plan.path.filename().string()));
  }
  return cell;
}

std::string depth_source_at(const Plan& plan, const run::TileEvidence& evidence) {
  const std::size_t number = evidence.depth_source.empty() ? 0 : evidence.depth_source[0];
  const bool known = number != kNoSource && !std::isnan(evidence.cells[0].depth_low_water);
  return known ? plan.depth.sources()[number].title() : "";
}

/// Every rule and every limit of the gear that closes a place; the reason names the first alone.
std::vector<std::string> closures(const CellScore& score, const Plan& plan) {
  std::vector<std::string> names;
  if (score.closed == kClosedNotWater || score.closed == kClosedUnknown) {
    return names;
  }
  const std::vector<std::string> all = closed_bit_names(plan);
  for (std::size_t bit = 0; bit < all.size(); ++bit) {
    if (((score.closed >> bit) & 1U) != 0) {
      names.push_back(all[bit]);
    }
  }
  return names;
}

void add_growth(Explanation& out, const TileLayers& layers, const run::SeasonSetup& setup) {
  run::CellSeason cell = run::cell_season(layers, out.cell_centre.lat, setup);
  out.season = cell.window;
  out.water_season = cell.water;
  out.growth = std::move(cell.growth);
}

}  // namespace

Explanation explain(const Plan& plan, LonLat at) {
  run::Area area = run::open_area(plan);
  const Grid& grid = area.layers->grid();
  Explanation out;
  out.at = at;
  out.cell = cell_at(plan, area, at);
  const XY centre = grid.centre(out.cell.col, out.cell.row);
  out.cell_centre = run::lonlat_of(*area.to_lonlat, centre);

  Plan best = plan;
  best.uncertainty.draws = 0;
  const run::GridParts parts(best, area, 0, nullptr);
  const Scorer& scorer = parts.scorer();
  const run::TileJob job = parts.job();
  run::Worker worker{area.layers->clone(), area.to_lonlat->clone()};
  const Tile tile{out.cell.col, out.cell.row, 1, 1};
  const run::TileEvidence evidence = run::evidence_of(tile, job, worker);
  out.evidence = evidence.cells[0];
  if (!evidence.axis_deg.empty() && !std::isnan(evidence.axis_deg[0])) {
    out.current_axis_deg = evidence.axis_deg[0];
  }
  if (parts.waves() != nullptr) {
    out.waves = place_waves(*parts.waves(), grid.index(out.cell.col, out.cell.row),
                            out.evidence.depth_low_water, plan);
  }
  out.depth_low_water = out.evidence.depth_low_water;
  out.depth_source = depth_source_at(plan, evidence);
  out.score = scorer(out.evidence);
  out.reason = reason_names(plan)[out.score.reason];
  out.closed_by = closures(out.score, plan);
  out.criterion_scores = scorer.scores(out.evidence);
  out.grown = !std::isnan(out.evidence.yield_kg_per_m);
  if (out.grown) {
    add_growth(out, worker.layers->sample(tile), parts.season());
  }
  out.rules = rules_around(centre, area.layers->closed(), *area.to_lonlat, *geoio::make_geodesy());
  out.near = shapes_near(centre, area.layers->near(), *area.to_lonlat, *geoio::make_geodesy());
  out.warnings = area.warnings;
  if (out.grown) {
    const std::array<run::WaterSeason, 1> here{{{"this place", out.water_season}}};
    const auto dates = run::date_warnings(plan.farm, here);
    out.warnings.insert(out.warnings.end(), dates.begin(), dates.end());
  }
  return out;
}

}  // namespace tidelot
