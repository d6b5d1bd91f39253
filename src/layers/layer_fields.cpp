// SPDX-License-Identifier: Apache-2.0
#include "layer_fields.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "current_axis.hpp"
#include "layer_units.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

/// A field of values from the plan and its report.
Field plan_field(const std::string& key, Quantity quantity, const Monthly& values, bool steady,
                 const std::string& unit, Opening& opening) {
  const UnitChoice choice = plan_unit_of(key, quantity, unit);
  const PlausibleRange range = plausible_range(quantity);
  Field field;
  field.nodes = steady ? YearNodes::one : YearNodes::months;
  for (std::size_t m = 0; m < kMonths; ++m) {
    field.constant[m] = choice.conversion(values[m]);
    if (!(field.constant[m] >= range.low && field.constant[m] <= range.high)) {
      throw Error(Fault::plan,
                  fmt::format("{}: {} is no {} ({} to {} {} is believed); correct the "
                              "value or {}.unit",
                              key, shortest(values[m]), name(quantity), shortest(range.low),
                              shortest(range.high), canonical_unit(quantity), key));
    }
  }
  LayerReport report;
  report.key = key;
  report.what = steady ? "constant" : "twelve monthly values";
  report.unit = choice.text;
  report.basis = "from the plan";
  const auto [low, high] = std::minmax_element(field.constant.begin(), field.constant.end());
  report.low = *low;
  report.high = *high;
  opening.reports.push_back(std::move(report));
  return field;
}

FileField file_field(const WaterPlan& plan, const FileRef& file, Opening& opening) {
  RasterWish wish{plan.key, file, plan.quantity, plan.unit, 1.0, true, std::nullopt};
  wish.steps = plan.steps;
  wish.line_depth_m = opening.line_depth_m;
  wish.northward = plan.northward;
  return open_raster_field(wish, opening);
}

Field water_field(const WaterPlan& plan, Opening& opening) {
  if (const auto* file = std::get_if<FileRef>(&plan.source)) {
    return file_field(plan, *file, opening).field;
  }
  Monthly values{};
  if (const auto* constant = std::get_if<double>(&plan.source)) {
    values.fill(*constant);
    return plan_field(plan.key, plan.quantity, values, true, plan.unit, opening);
  }
  return plan_field(plan.key, plan.quantity, std::get<Monthly>(plan.source), false, plan.unit,
                    opening);
}

/// Secchi depths become attenuation after they are sampled: the relation is not a straight line.
Field light_field(const WaterPlan& plan, Opening& opening) {
  if (plan.quantity != Quantity::attenuation && plan.quantity != Quantity::secchi) {
    throw Error(Fault::plan, fmt::format("{}.measure: {} is not yet supported; give kd or secchi",
                                         plan.key, name(plan.quantity)));
  }
  Field field = water_field(plan, opening);
  field.secchi = plan.quantity == Quantity::secchi;
  if (field.secchi) {
    for (double& value : field.constant) {
      value = kd_from_secchi(value);
    }
    LayerReport& report = opening.reports.back();
    std::swap(report.low, report.high);
    report.low = kd_from_secchi(report.low);
    report.high = kd_from_secchi(report.high);
    report.unit += " (Secchi) -> 1/m";
  }
  return field;
}

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

}  // namespace

std::string own_key(const CriterionPlan& criterion) { return "criteria." + criterion.name; }

LayerFields open_fields(const Plan& plan, Opening& opening) {
  const auto field = [&](const std::string& key, auto open) {
    return opened(key, opening, unknown_field(), open);
  };
  const auto water = [&](const WaterPlan& property) {
    return field(property.key, [&] { return water_field(property, opening); });
  };
  LayerFields fields;
  fields.depth = open_depth(plan.depth, opening);
  fields.temperature = water(plan.temperature);
  fields.salinity = water(plan.salinity);
  fields.attenuation = field(plan.light.key, [&] { return light_field(plan.light, opening); });
  fields.nitrogen = water(plan.nitrogen);
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
  fields.edge = plan.area.edge;
  return fields;
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
  layers.nitrogen = sampler.all(nitrogen);
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
