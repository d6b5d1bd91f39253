// SPDX-License-Identifier: Apache-2.0
#include "run/area.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "run/landing.hpp"

namespace tidelot::run {
namespace {

constexpr double kTileWidth_m = 32000.0;
constexpr int kTileSide = 64;
/// Distances are kept in true metres with one scale for the whole grid; beyond this error that is
/// no longer honest.
constexpr double kMostScaleError = 0.001;

/// Of the grid's middle first, then of its corners, the middles of its sides, and the middle.
std::vector<geoio::ProjectionFactors> factors_over(const Grid& grid, LonLat middle,
                                                   Projector& to_lonlat) {
  std::vector<LonLat> places{middle};
  for (const double right : {0.0, 0.5, 1.0}) {
    for (const double up : {0.0, 0.5, 1.0}) {
      const XY place{grid.west + right * (grid.east() - grid.west),
                     grid.south() + up * (grid.north - grid.south())};
      places.push_back(lonlat_of(to_lonlat, place));
    }
  }
  return geoio::projection_factors(grid.crs, places);
}

void measure_grid(Area& area) {
  const Grid& grid = area.layers->grid();
  Projector& to = *area.to_lonlat;
  area.corners = {lonlat_of(to, {grid.west, grid.north}), lonlat_of(to, {grid.east(), grid.north}),
                  lonlat_of(to, {grid.east(), grid.south()}),
                  lonlat_of(to, {grid.west, grid.south()})};
  area.middle = lonlat_of(to, {(grid.west + grid.east()) / 2.0, (grid.north + grid.south()) / 2.0});
  const auto all = factors_over(grid, area.middle, to);
  const geoio::ProjectionFactors& factors = all.front();
  area.scale = std::sqrt(factors.areal_scale);
  area.areal_scale = factors.areal_scale;
  area.convergence_deg = factors.convergence_deg;
  area.scale_error = scale_error(area.scale, std::span(all).subspan(1));
  if (area.scale_error > kMostScaleError) {
    area.warnings.push_back(fmt::format(
        "area.crs: lengths on this grid are off by up to {:.2f} %, and setbacks with them; choose "
        "a system made for the area, or a smaller area",
        100.0 * area.scale_error));
  }
}

}  // namespace

double scale_error(double scale, std::span<const geoio::ProjectionFactors> places) {
  double most = 0.0;
  for (const geoio::ProjectionFactors& place : places) {
    most = std::max(
        {most, std::abs(place.scale_max / scale - 1.0), std::abs(place.scale_min / scale - 1.0)});
  }
  return most;
}

Area open_area(const Plan& plan, std::vector<Error>* problems, const std::atomic<int>* stop) {
  geoio::start();
  Area area;
  area.opener = geoio::make_opener(plan.allow.ballpark, stop);
  area.layers = open_layers(plan, *area.opener, problems);
  area.to_lonlat = area.opener->projector(area.layers->grid().crs, "EPSG:4326", "area.crs");
  area.warnings = plan.warnings;
  const auto& more = area.layers->warnings();
  area.warnings.insert(area.warnings.end(), more.begin(), more.end());
  measure_grid(area);
  look_at_landing(plan, area, problems);
  return area;
}

LonLat lonlat_of(Projector& to_lonlat, XY place) {
  std::array<XY, 1> point{place};
  to_lonlat.forward(point);
  return {point[0].x, point[0].y};
}

std::vector<float> latitudes_of(const Grid& grid, const Tile& tile, Projector& to_lonlat) {
  const int col1 = tile.col0 + tile.cols - 1;
  const int row1 = tile.row0 + tile.rows - 1;
  std::array<XY, 4> ends{grid.centre(tile.col0, tile.row0), grid.centre(col1, tile.row0),
                         grid.centre(tile.col0, row1), grid.centre(col1, row1)};
  to_lonlat.forward(ends);
  std::vector<float> out;
  out.reserve(tile.size());
  for (int row = 0; row < tile.rows; ++row) {
    const double down = tile.rows > 1 ? double(row) / (tile.rows - 1) : 0.0;
    const double left = ends[0].y + down * (ends[2].y - ends[0].y);
    const double right = ends[1].y + down * (ends[3].y - ends[1].y);
    for (int col = 0; col < tile.cols; ++col) {
      const double across = tile.cols > 1 ? double(col) / (tile.cols - 1) : 0.0;
      out.push_back(static_cast<float>(left + across * (right - left)));
    }
  }
  return out;
}

int tile_side(const Grid& grid) {
  return std::clamp(static_cast<int>(kTileWidth_m / grid.cell_m), 1, kTileSide);
}

int group_side(const Grid& grid) {
  constexpr int kGroupSide = 2;  // more shares more nodes, and leaves small bays to one worker
  return std::clamp(static_cast<int>(kTileWidth_m / (grid.cell_m * tile_side(grid))), 1,
                    kGroupSide);
}

}  // namespace tidelot::run
