// SPDX-License-Identifier: Apache-2.0
#include "layer_fields.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>

#include "current_axis.hpp"
#include "layer_units.hpp"
#include "monthly_tile.hpp"
#include "station_field.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/seawater.hpp"
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
  field.conversion.per_mass = choice.conversion.per_mass;
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

RasterWish file_wish(const WaterPlan& plan, const FileRef& file, const Opening& opening) {
  RasterWish wish{plan.key, file, plan.quantity, plan.unit, 1.0, true, std::nullopt};
  wish.steps = plan.steps;
  wish.line_depth_m = opening.line_depth_m;
  wish.northward = plan.northward;
  return wish;
}

FileField file_field(const WaterPlan& plan, const FileRef& file, Opening& opening) {
  return open_raster_field(file_wish(plan, file, opening), opening);
}

Field water_field(const WaterPlan& plan, Opening& opening) {
  if (const auto* stations = std::get_if<StationsRef>(&plan.source)) {
    return open_station_field({plan.key, *stations, plan.quantity, plan.unit}, plan.error, opening);
  }
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

Field::ToKd to_kd(const Plan& plan) {
  switch (plan.light.quantity) {
    case Quantity::secchi:
      return Field::ToKd::secchi;
    case Quantity::turbidity:
      return Field::ToKd::turbidity;
    default:
      return plan.light_relation.kd490 ? Field::ToKd::kd490 : Field::ToKd::none;
  }
}

std::string relation_text(const Field& field) {
  switch (field.to_kd) {
    case Field::ToKd::secchi:
      return " (Secchi) -> 1/m";
    case Field::ToKd::turbidity:
      return fmt::format(" -> 1/m ({} + {} x NTU)", shortest(field.light.turbidity_intercept),
                         shortest(field.light.turbidity_slope));
    case Field::ToKd::kd490:
      return " at 490 nm -> of PAR";
    case Field::ToKd::none:
      break;
  }
  return "";
}

/// Light at 490 nm goes deeper than PAR as a whole: the one must not pass for the other.
std::string objection_to_kd(const RasterInfo& info, bool kd490) {
  const bool says_490 = info.long_name.find("490") != std::string::npos;
  return says_490 && !kd490
             ? "says of itself that it is the attenuation at 490 nm, not that of PAR; set "
               "water.light.measure = \"kd490\" to convert it, or give Kd of PAR"
             : "";
}

/// The attenuation of a file or of the plan as it stands.
Field attenuation_field(const Plan& plan, Opening& opening) {
  const bool kd490 = plan.light_relation.kd490;
  const PlausibleRange range{kKd490Low, kKd490High};
  const auto* file = std::get_if<FileRef>(&plan.light.source);
  if (!file || plan.light.quantity != Quantity::attenuation) {
    return water_field(plan.light, opening);
  }
  RasterWish wish = file_wish(plan.light, *file, opening);
  wish.range = kd490 ? std::optional(range) : std::nullopt;
  wish.objection = [kd490](const RasterInfo& info) { return objection_to_kd(info, kd490); };
  return open_raster_field(wish, opening).field;
}

/// Attenuation, or what it follows from.
Field light_field(const Plan& plan, Opening& opening) {
  Field field = attenuation_field(plan, opening);
  field.to_kd = to_kd(plan);
  field.light = plan.light_relation;
  if (field.to_kd == Field::ToKd::none) {
    return field;
  }
  if (field.to_kd == Field::ToKd::kd490) {
    opening.warnings.push_back(
        plan.light.key +
        ": attenuation at 490 nm becomes that of PAR by a relation of clear "
        "ocean water (Morel et al. 2007); in a turbid or brown bay it is off, "
        "measure Secchi depths there");
  }
  for (double& value : field.constant) {
    value = kd_of(field, value);
    if (std::isnan(value) && field.parts.empty()) {
      throw Error(
          Fault::plan,
          fmt::format("{}: attenuation at 490 nm becomes that of PAR from {} to {} 1/m only; "
                      "give Kd of PAR",
                      plan.light.key, shortest(kKd490Low), shortest(kKd490High)));
    }
  }
  LayerReport& report = opening.reports.back();
  const double ends[] = {kd_of(field, report.low), kd_of(field, report.high)};
  report.low = std::min(ends[0], ends[1]);
  report.high = std::max(ends[0], ends[1]);
  report.unit += relation_text(field);
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
  fields.nitrogen = water(plan.nitrate ? *plan.nitrate : plan.nitrogen);
  if (plan.ammonium) {
    fields.ammonium = water(*plan.ammonium);
  }
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
