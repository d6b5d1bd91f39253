// SPDX-License-Identifier: Apache-2.0
#include "field_correction.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <numeric>
#include <set>
#include <utility>

#include "monthly_tile.hpp"
#include "spread.hpp"
#include "station_field.hpp"
#include "station_means.hpp"
#include "station_water.hpp"

namespace tidelot {
namespace {

constexpr float kNan = std::numeric_limits<float>::quiet_NaN();

/// What a value may not fall below.
float floor_of(FieldProperty property) {
  return property == FieldProperty::temperature ? -std::numeric_limits<float>::infinity() : 0.0F;
}

/// A value that is moved by nothing, or by what is not known, keeps its bits.
float moved(float value, float by, float floor) {
  if (std::isnan(by) || by == 0.0F) {
    return value;
  }
  const float sum = value + by;
  return sum < floor ? floor : sum;
}

void add_all(std::vector<float>& values, const std::vector<float>& by, float floor) {
  std::transform(values.begin(), values.end(), by.begin(), values.begin(),
                 [floor](float value, float step) { return moved(value, step, floor); });
}

/// Every month and day of the tile, by what by_month gives for the month it lies in.
void add_by_month(MonthlyTile& tile, float floor,
                  const std::function<const std::vector<float>&(std::size_t)>& by_month) {
  for (std::size_t m = 0; m < kMonths; ++m) {
    if (!tile.month[m].empty()) {
      add_all(tile.month[m], by_month(m), floor);
    }
  }
  for (std::size_t day = 0; day < tile.day.size(); ++day) {
    add_all(tile.day[day], by_month(static_cast<std::size_t>(month_of(static_cast<int>(day) + 1))),
            floor);
  }
}

/// Ammonium is a part of the nitrogen: it grows and shrinks with it.
void keep_share(const MonthlyTile& before, TileLayers& layers) {
  const MonthlyTile ratio = combined(
      layers.nitrogen, before, [](float now, float was) { return was > 0.0F ? now / was : 1.0F; });
  layers.ammonium = combined(layers.ammonium, ratio, std::multiplies<float>());
}

XY in_grid(Opening& opening, LonLat place) {
  const auto projector =
      opening.opener.projector("EPSG:4326", opening.grid.crs, "field", opening.bounds);
  std::array<XY, 1> at{XY{place.lon, place.lat}};
  projector->forward(at);
  return at[0];
}

/// Of a layer without months every month takes the mean of all readings of the place.
void make_steady(StationMeans& place) {
  double sum = 0.0;
  int days = 0;
  for (std::size_t m = 0; m < kMonths; ++m) {
    sum += place.days[m] > 0 ? place.mean[m] * place.days[m] : 0.0;
    days += place.days[m];
  }
  place.mean.fill(sum / days);
}

std::size_t water_cell(const Waterway& way, XY at) {
  const Cell own = way.grid().cell_of(at);
  const bool afloat = way.grid().holds(own) && way.water(way.grid().index(own.col, own.row));
  return afloat ? way.grid().index(own.col, own.row) : way.nearest_water(at);
}

/// Of the cells of the lattice, m through the water to the nearest place; NaN where none leads.
std::vector<float> nearest_distance(const Waterway& way, const std::set<std::size_t>& cells) {
  const Grid& grid = way.grid();
  std::vector<float> nearest(grid.size(), kNan);
  for (const std::size_t cell : cells) {
    const auto cols = static_cast<std::size_t>(grid.cols);
    const GridVector<float> distance = water_distance(
        way, grid.centre(static_cast<int>(cell % cols), static_cast<int>(cell / cols)));
    std::transform(nearest.begin(), nearest.end(), distance.begin(), nearest.begin(),
                   [](float a, float b) { return std::isnan(a) || b < a ? b : a; });
  }
  return nearest;
}

/// Water that no reading reaches stays as it is; land has no value.
void fade_out(Surfaces& surfaces, const Waterway& way, const std::set<std::size_t>& cells,
              double range_m) {
  const std::vector<float> distance = nearest_distance(way, cells);
  for (std::vector<float>& month : surfaces.month) {
    for (std::size_t i = 0; i < month.size(); ++i) {
      const double left =
          std::isnan(distance[i]) ? 0.0 : fade(static_cast<double>(distance[i]), range_m);
      const bool nothing = left <= 0.0 || std::isnan(month[i]);
      const float value = nothing ? 0.0F : static_cast<float>(left * double{month[i]});
      month[i] = way.water(i) ? value : kNan;
    }
  }
}

}  // namespace

FieldCorrections FieldCorrections::clone() const {
  FieldCorrections copy;
  for (const Lattice& lattice : lattices) {
    copy.lattices.push_back({lattice.info, lattice.grid_to_source->clone()});
  }
  for (const FieldCorrection& one : all) {
    copy.all.push_back({one.property, one.shift, std::nullopt});
    if (one.residual) {
      copy.all.back().residual = one.residual->clone();
    }
  }
  return copy;
}

void FieldCorrections::apply(const Grid& grid, const Tile& tile, TileLayers& layers) {
  TileSampler sampler(grid, tile, lattices, EdgeRule::half);
  for (FieldCorrection& one : all) {
    MonthlyTile& values = tile_of(layers, one.property);
    const bool split = one.property == FieldProperty::nitrogen && !layers.ammonium.empty();
    const MonthlyTile before = split ? values : MonthlyTile{};
    const float floor = floor_of(one.property);
    if (one.residual) {
      const MonthlyTile by = sampler.all(*one.residual);
      add_by_month(values, floor,
                   [&](std::size_t m) -> const std::vector<float>& { return by.month[m]; });
    } else {
      const std::vector<float> by(tile.size(), static_cast<float>(one.shift));
      add_by_month(values, floor, [&](std::size_t) -> const std::vector<float>& { return by; });
    }
    if (split) {
      keep_share(before, layers);
    }
  }
}

double fade(double distance_m, double range_m) {
  const double part = distance_m / range_m;
  const double left = 1.0 - part * part;
  return left > 0.0 ? left * left : 0.0;
}

Field spread_residuals(const std::vector<Residual>& residuals, bool steady, double range_m,
                       Opening& opening) {
  std::vector<Reading> readings;
  readings.reserve(residuals.size());
  for (const Residual& residual : residuals) {
    readings.push_back({"", residual.place, "", residual.day, residual.value});
  }
  AllMeans means = monthly_means(readings);
  const auto [way, block] = working_water(means.places.size(), opening);
  std::vector<PlaceMeans> places;
  std::set<std::size_t> cells;
  for (StationMeans& place : means.places) {
    if (steady) {
      make_steady(place);
    }
    const std::size_t cell = water_cell(*way, in_grid(opening, place.place));
    places.push_back({cell, place.mean});
    cells.insert(cell);
  }
  const StationsRef usual;
  Surfaces surfaces = spread(*way, places, {usual.power, usual.nugget_m});
  fade_out(surfaces, *way, cells, range_m);
  return field_of(surfaces, way->grid(), block, opening);
}

}  // namespace tidelot
