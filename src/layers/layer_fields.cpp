// SPDX-License-Identifier: Apache-2.0
#include "layer_fields.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <utility>

#include "current_axis.hpp"
#include "light_field.hpp"
#include "monthly_tile.hpp"
#include "property_field.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/seawater.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

Field own_field(const CriterionPlan& criterion, Opening& opening) {
  RasterWish wish;
  wish.key = own_key(criterion);
  wish.file = *criterion.file;
  wish.unit = criterion.unit;
  return open_raster_field(wish, opening).field;
}

/// The current, and its axis where the plan or two parts of it say.
void add_current(const WaterPlan& plan, Opening& opening, LayerFields& fields) {
  fields.current = opened(plan.key, opening, unknown_field(), [&] {
    if (plan.northward.empty()) {
      return water_field(plan, opening);
    }
    FileField parts = file_field(plan, std::get<FileRef>(plan.source), opening);
    fields.axis = std::move(parts.axis);
    return std::move(parts.field);
  });
  if (plan.direction) {
    fields.axis = opened(plan.key + ".direction", opening, unknown_field(),
                         [&] { return axis_of_direction(*plan.direction, opening); });
  }
}

/// Nitrate and ammonium make the nitrogen between them, so both are by month or both by day.
void add_nitrogen(const Plan& plan, Opening& opening, LayerFields& fields) {
  const WaterPlan& first = plan.nitrate ? *plan.nitrate : plan.nitrogen;
  fields.nitrogen =
      opened(first.key, opening, unknown_field(), [&] { return water_field(first, opening); });
  if (!plan.ammonium) {
    return;
  }
  fields.ammonium = opened(plan.ammonium->key, opening, unknown_field(), [&] {
    Field field = water_field(*plan.ammonium, opening);
    const YearNodes other = fields.nitrogen.nodes;
    if (field.nodes != other && field.nodes != YearNodes::one && other != YearNodes::one) {
      throw Error(Fault::plan,
                  fmt::format("{}: is given by {} and nitrate by {}; set steps = \"monthly\" where "
                              "the days are",
                              plan.ammonium->key, field.nodes == YearNodes::days ? "day" : "month",
                              other == YearNodes::days ? "day" : "month"));
    }
    return field;
  });
}

/// Amounts per kilogram of seawater become those per litre by the density of the cell's own water.
MonthlyTile per_volume(MonthlyTile amounts, const Field& field, const TileLayers& layers) {
  if (!field.conversion.per_mass) {
    return amounts;
  }
  const MonthlyTile density =
      combined(layers.salinity, layers.temperature, [](float salinity, float temperature) {
        return static_cast<float>(seawater_density(salinity, temperature) / 1000.0);
      });
  return combined(amounts, density, std::multiplies<float>());
}

}  // namespace

std::string own_key(const CriterionPlan& criterion) { return "criteria." + criterion.name; }

LayerFields open_depth(const Plan& plan, Opening& opening) {
  LayerFields fields;
  fields.edge = plan.area.edge;
  fields.depth = open_depth(plan.depth, opening);
  return fields;
}

DepthOfTile depth_of(LayerFields& fields, Opening& opening) {
  const auto& sources = fields.depth.sources;
  const bool is_open = std::any_of(sources.begin(), sources.end(), [](const auto& source) {
    return !source.depth.parts.empty() || source.depth.surface != nullptr;
  });
  if (!is_open) {
    return nullptr;
  }
  return [&](const Tile& tile) {
    TileSampler sampler(opening.grid, tile, opening.lattices, fields.edge);
    return fields.depth.sample(sampler).low_water;
  };
}

void open_water(const Plan& plan, Opening& opening, LayerFields& fields) {
  const auto field = [&](const std::string& key, auto open) {
    return opened(key, opening, unknown_field(), open);
  };
  const auto water = [&](const WaterPlan& property) {
    return field(property.key, [&] { return water_field(property, opening); });
  };
  fields.temperature = water(plan.temperature);
  fields.salinity = water(plan.salinity);
  fields.attenuation = field(plan.light.key, [&] { return light_field(plan, opening); });
  add_nitrogen(plan, opening, fields);
  add_current(plan.current, opening, fields);
  if (const auto* file = std::get_if<FileRef>(&plan.sun.source)) {
    fields.radiation = field("sun", [&] {
      WaterPlan sun;
      sun.quantity = Quantity::radiation;
      sun.key = "sun";
      sun.unit = plan.sun.unit;
      return file_field(sun, *file, opening).field;
    });
  }
  for (const CriterionPlan& criterion : plan.criteria) {
    if (criterion.file) {
      fields.own.push_back(
          field(own_key(criterion), [&] { return own_field(criterion, opening); }));
    }
  }
  fields.lattices = std::move(opening.lattices);
}

LayerFields LayerFields::clone() const {
  LayerFields copy;
  for (const Lattice& lattice : lattices) {
    copy.lattices.push_back({lattice.info, lattice.grid_to_source->clone()});
  }
  copy.depth = depth.clone();
  copy.temperature = temperature.clone();
  copy.salinity = salinity.clone();
  copy.attenuation = attenuation.clone();
  copy.nitrogen = nitrogen.clone();
  copy.current = current.clone();
  if (ammonium) {
    copy.ammonium = ammonium->clone();
  }
  if (radiation) {
    copy.radiation = radiation->clone();
  }
  if (axis) {
    copy.axis = axis->clone();
  }
  for (const Field& field : own) {
    copy.own.push_back(field.clone());
  }
  copy.edge = edge;
  return copy;
}

std::vector<float> LayerFields::sample_depth(const Grid& grid, const Tile& tile) {
  TileSampler sampler(grid, tile, lattices, edge);
  return depth.sample(sampler).low_water;
}

TileLayers LayerFields::sample(const Grid& grid, const Tile& tile) {
  TileSampler sampler(grid, tile, lattices, edge);
  TileLayers layers;
  DepthTile depths = depth.sample(sampler);
  layers.depth_low_water = std::move(depths.low_water);
  layers.depth_share = std::move(depths.share);
  layers.depth_source = std::move(depths.source);
  layers.temperature = sampler.all(temperature);
  layers.salinity = sampler.all(salinity);
  layers.attenuation = sampler.all(attenuation);
  layers.nitrogen = per_volume(sampler.all(nitrogen), nitrogen, layers);
  if (ammonium) {
    layers.ammonium = per_volume(sampler.all(*ammonium), *ammonium, layers);
    layers.nitrogen = combined(layers.nitrogen, layers.ammonium, std::plus<float>());
  }
  layers.current = sampler.all(current);
  if (radiation) {
    layers.radiation = sampler.all(*radiation);
  }
  if (axis) {
    layers.current_axis_deg = axis_bearings(*axis, sampler);
  }
  for (Field& field : own) {
    layers.own_share.emplace_back(tile.size(), 1.0F);
    layers.own.push_back(sampler.node(field, 0, layers.own_share.back()));
  }
  return layers;
}

}  // namespace tidelot
