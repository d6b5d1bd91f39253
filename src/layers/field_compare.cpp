// SPDX-License-Identifier: Apache-2.0
#include "field_compare.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "monthly_tile.hpp"
#include "tidelot/core/seawater.hpp"

namespace tidelot {
namespace {

/// Of a 365-day year, counted from 0; 29 February is the 28th.
std::size_t day_index(const Day& day) {
  const int most = kMonthDays[static_cast<std::size_t>(day.month - 1)];
  return static_cast<std::size_t>(first_day_of_month(day.month - 1) + std::min(day.day, most) - 2);
}

double value_at(const MonthlyTile& tile, const Day& day) {
  const std::vector<float>& values = tile.day.empty()
                                         ? month_in(tile, static_cast<std::size_t>(day.month - 1))
                                         : tile.day[day_index(day)];
  return static_cast<double>(values[0]);
}

/// What the layer says where the reading was taken, and the reading as it is to be held against it.
double layer_value(TileLayers& cell, const FieldReading& reading) {
  return reading.property == FieldProperty::depth_low_water
             ? static_cast<double>(cell.depth_low_water[0])
             : value_at(tile_of(cell, reading.property), reading.day);
}

double read_value(const TileLayers& cell, const FieldReading& reading) {
  return reading.per_mass ? reading.value *
                                seawater_density(value_at(cell.salinity, reading.day),
                                                 value_at(cell.temperature, reading.day)) /
                                1000.0
                          : reading.value;
}

/// Cells are sampled once, however many readings lie in them.
class Cells {
 public:
  explicit Cells(LayerSet& layers) : layers_(layers) {}
  TileLayers& at(Cell cell) {
    const std::size_t index = layers_.grid().index(cell.col, cell.row);
    const auto known = cells_.find(index);
    return known != cells_.end()
               ? known->second
               : cells_.emplace(index, layers_.sample({cell.col, cell.row, 1, 1})).first->second;
  }

 private:
  LayerSet& layers_;
  std::map<std::size_t, TileLayers> cells_;
};

struct LeftOut {
  std::size_t outside = 0;
  std::size_t on_land = 0;
  std::map<FieldProperty, std::size_t> unknown;
};

std::string readings(std::size_t count) {
  return fmt::format("{} reading{}", count, count == 1 ? "" : "s");
}

std::vector<std::string> notes_of(const LeftOut& left_out) {
  std::vector<std::string> out;
  if (left_out.outside > 0) {
    out.push_back(readings(left_out.outside) + " outside of the area left out");
  }
  if (left_out.on_land > 0) {
    out.push_back(readings(left_out.on_land) + " on what the layers call land left out");
  }
  for (const auto& [property, count] : left_out.unknown) {
    out.push_back(fmt::format("{}: {} where the layer is not known left out", name(property),
                              readings(count)));
  }
  return out;
}

}  // namespace

MonthlyTile& tile_of(TileLayers& layers, FieldProperty property) {
  switch (property) {
    case FieldProperty::salinity:
      return layers.salinity;
    case FieldProperty::kd:
      return layers.attenuation;
    case FieldProperty::nitrogen:
      return layers.nitrogen;
    case FieldProperty::current:
      return layers.current;
    default:
      return layers.temperature;
  }
}

Compared compare(const FieldTable& table, LayerSet& layers, Projector& grid_to_degrees) {
  Compared out;
  LeftOut left_out;
  Cells cells(layers);
  for (const FieldReading& reading : table.all) {
    std::array<XY, 1> at{XY{reading.place.lon, reading.place.lat}};
    grid_to_degrees.inverse(at);
    const bool finite = std::isfinite(at[0].x) && std::isfinite(at[0].y);
    const Cell own = finite ? layers.grid().cell_of(at[0]) : Cell{-1, -1};
    if (!layers.grid().holds(own) || cells.at(own).inside[0] == 0) {
      ++left_out.outside;
      continue;
    }
    TileLayers& cell = cells.at(own);
    if (cell.depth_low_water[0] <= 0.0F) {
      ++left_out.on_land;
      continue;
    }
    out.visits.push_back({at[0], reading.day.year, reading.day.month, reading.day.day});
    const double residual = read_value(cell, reading) - layer_value(cell, reading);
    if (std::isnan(residual)) {
      ++left_out.unknown[reading.property];
      continue;
    }
    out.of[static_cast<std::size_t>(reading.property)].push_back(
        {reading.place, at[0], reading.day, residual});
  }
  out.notes = notes_of(left_out);
  return out;
}

FieldResidual summary(FieldProperty property, const std::vector<Residual>& residuals) {
  FieldResidual out;
  out.property = name(property);
  out.unit = std::string(canonical_unit(quantity(property)));
  out.count = residuals.size();
  for (const Residual& residual : residuals) {
    out.bias += residual.value;
    out.rmse += residual.value * residual.value;
  }
  if (out.count > 0) {
    const auto count = static_cast<double>(out.count);
    out.bias /= count;
    out.rmse = std::sqrt(out.rmse / count);
  }
  return out;
}

}  // namespace tidelot
