// SPDX-License-Identifier: Apache-2.0
#include "run/landing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

#include "tidelot/core/error.hpp"

namespace tidelot::run {
namespace {

constexpr double kFarInland_m = 250.0;  // as stations: no boat is carried further (judgement)
constexpr double kNone = std::numeric_limits<double>::infinity();

/// From a place to the nearest cell's centre of a tile.
double distance_to(const Grid& grid, const Tile& tile, XY place) {
  const XY first = grid.centre(tile.col0, tile.row0);
  const XY last = grid.centre(tile.col0 + tile.cols - 1, tile.row0 + tile.rows - 1);
  return std::hypot(place.x - std::clamp(place.x, first.x, last.x),
                    place.y - std::clamp(place.y, last.y, first.y));
}

double distance_in(const Grid& grid, const Tile& tile, const std::vector<float>& depth, XY from,
                   double least_m) {
  double nearest = kNone;
  for (int row = 0; row < tile.rows; ++row) {
    for (int col = 0; col < tile.cols; ++col) {
      if (depth[static_cast<std::size_t>(row * tile.cols + col)] > least_m) {
        const XY centre = grid.centre(tile.col0 + col, tile.row0 + row);
        nearest = std::min(nearest, std::hypot(centre.x - from.x, centre.y - from.y));
      }
    }
  }
  return nearest;
}

std::string far_text(double distance_m) {
  return std::isfinite(distance_m)
             ? fmt::format(
                   "sites.landing: the nearest water for the boat lies {:.0f} m from it, "
                   "and ways over water begin there: check its place, and depth.positive",
                   distance_m)
             : "sites.landing: there is no water for the boat in the area: check sites.draft_m and "
               "depth.positive";
}

}  // namespace

XY landing_place(const Plan& plan, Area& area) {
  const Grid& grid = area.layers->grid();
  std::array<XY, 1> landing{XY{plan.sites.landing->lon, plan.sites.landing->lat}};
  area.to_lonlat->inverse(landing);
  if (!grid.holds(grid.cell_of(landing[0]))) {
    throw Error(Fault::plan, plan.path.filename().string() +
                                 ": sites.landing: lies outside the area; write lon, lat of a "
                                 "place inside [area] bounds");
  }
  return landing[0];
}

double distance_to_water(LayerSet& layers, XY from, double least_m) {
  const Grid& grid = layers.grid();
  std::vector<std::pair<double, Tile>> tiles;
  for (const Tile& tile : tiles_of(grid, tile_side(grid))) {
    tiles.emplace_back(distance_to(grid, tile, from), tile);
  }
  std::stable_sort(tiles.begin(), tiles.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  double nearest = kNone;
  for (const auto& [distance, tile] : tiles) {
    if (distance >= nearest) {
      break;
    }
    nearest = std::min(nearest, distance_in(grid, tile, layers.sample_depth(tile), from, least_m));
  }
  return nearest;
}

void look_at_landing(const Plan& plan, Area& area, std::vector<Error>* problems) {
  if (!plan.sites.landing) {
    return;
  }
  const bool unread = problems != nullptr && !problems->empty();
  try {
    const double distance_m =
        distance_to_water(*area.layers, landing_place(plan, area), plan.sites.draft_m) / area.scale;
    if (distance_m > kFarInland_m && (std::isfinite(distance_m) || !unread)) {
      area.warnings.push_back(far_text(distance_m));
    }
  } catch (const Error& problem) {
    if (problems == nullptr) {
      throw;
    }
    problems->push_back(problem);
  }
}

}  // namespace tidelot::run
