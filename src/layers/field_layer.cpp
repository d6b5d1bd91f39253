// SPDX-License-Identifier: Apache-2.0
#include "field_layer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

constexpr std::size_t kMaxBytes = 64'000'000;
using Apply = FieldPlan::Apply;

/// The plan's table of a property; none of depth, nor of nitrogen given as two.
const WaterPlan* water_of(const Plan& plan, FieldProperty property) {
  switch (property) {
    case FieldProperty::temperature:
      return &plan.temperature;
    case FieldProperty::salinity:
      return &plan.salinity;
    case FieldProperty::kd:
      return &plan.light;
    case FieldProperty::nitrogen:
      return plan.ammonium ? nullptr : &plan.nitrogen;
    case FieldProperty::current:
      return &plan.current;
    case FieldProperty::depth_low_water:
      break;
  }
  return nullptr;
}

std::string key_of(const Plan& plan, FieldProperty property) {
  const WaterPlan* water = water_of(plan, property);
  return water != nullptr ? water->key : property == FieldProperty::depth_low_water ? "depth" : "";
}

/// Rows of the layers that make up a property.
std::vector<LayerReport*> rows_of(const Plan& plan, FieldProperty property, Opening& opening) {
  const std::string key = key_of(plan, property);
  std::vector<LayerReport*> out;
  for (LayerReport& report : opening.reports) {
    const bool part = property == FieldProperty::nitrogen && plan.ammonium &&
                      (report.key == plan.nitrate->key || report.key == plan.ammonium->key);
    if ((!key.empty() && report.key == key) || part) {
      out.push_back(&report);
    }
  }
  return out;
}

std::string keep_error(const Plan& plan, FieldProperty property, const FieldResidual& found,
                       Opening& opening) {
  const WaterPlan* water = water_of(plan, property);
  if (water != nullptr && water->error) {
    return "values stay; the plan's error stays";
  }
  const std::vector<LayerReport*> rows = rows_of(plan, property, opening);
  if (rows.size() != 1) {
    return "values stay; the layer comes from several files, each keeps its own error";
  }
  rows.front()->error = found.rmse;
  rows.front()->error_unit = found.unit;
  rows.front()->error_basis =
      fmt::format("field readings, {} value{}", found.count, found.count == 1 ? "" : "s");
  return "values stay; the RMSE is kept as the error";
}

bool is_steady(LayerSet& layers, FieldProperty property) {
  TileLayers cell = layers.sample({0, 0, 1, 1});
  return tile_of(cell, property).steady;
}

/// Of a layer whose values change, the cover and range are found anew.
void mark_changed(const Plan& plan, FieldProperty property, const std::string& done,
                  Opening& opening) {
  for (LayerReport* row : rows_of(plan, property, opening)) {
    row->varies = true;
    row->basis += "; field readings: " + done;
  }
}

std::string months_without(const std::vector<Residual>& residuals) {
  std::string out;
  for (int m = 0; m < kMonths; ++m) {
    const bool any = std::any_of(residuals.begin(), residuals.end(),
                                 [m](const Residual& r) { return r.day.month == m + 1; });
    out += any ? "" : (out.empty() ? "" : ", ") + std::string(month_name(m));
  }
  return out;
}

std::string shift(FieldProperty property, const FieldResidual& found, FieldLayer& out) {
  out.corrections.all.push_back({property, found.bias, std::nullopt});
  return fmt::format("{}{} {} was added everywhere, in all months{}", found.bias < 0.0 ? "" : "+",
                     fixed(found.bias, 3), found.unit,
                     property == FieldProperty::temperature ? "" : ", never below 0");
}

std::string replace(const FieldPlan& plan, FieldProperty property,
                    const std::vector<Residual>& residuals, LayerSet& layers, FieldLayer& out,
                    Opening& opening) {
  if (!opening.depth) {
    return "not spread: the depth is to be mended first";
  }
  const bool steady = is_steady(layers, property);
  out.corrections.all.push_back(
      {property, 0.0, spread_residuals(residuals, steady, plan.range_m, opening)});
  const std::string gaps = months_without(residuals);
  return fmt::format(
      "the layer takes the readings where they were taken, fading to nothing at {} m through the "
      "water (field.range_m){}",
      shortest(plan.range_m),
      steady         ? "; the layer does not change over the year: each place's mean was taken"
      : gaps.empty() ? ""
                     : "; no reading in " + gaps +
                           ": there the residuals lie between those of the months around");
}

std::string act(const Plan& plan, FieldProperty property, const FieldResidual& found,
                const std::vector<Residual>& residuals, LayerSet& layers, FieldLayer& out,
                Opening& opening) {
  const Apply apply = plan.field->apply;
  if (apply == Apply::confidence) {
    return keep_error(plan, property, found, opening);
  }
  if (property == FieldProperty::depth_low_water) {
    return "values stay: depths are compared only, whatever apply says; mend the file, or add the "
           "soundings to [[depth.sources]]";
  }
  const std::string done = apply == Apply::bias
                               ? shift(property, found, out)
                               : replace(*plan.field, property, residuals, layers, out, opening);
  mark_changed(plan, property, done, opening);
  return done;
}

std::string residual_text(const FieldResidual& one) {
  return fmt::format("{}: {} reading{}, bias {} {} (reading less layer), RMSE {}", one.property,
                     one.count, one.count == 1 ? "" : "s", fixed(one.bias, 3), one.unit,
                     fixed(one.rmse, 3));
}

void add_row(const Plan& plan, const FieldTable& table, const FieldLayer& layer, Opening& opening) {
  LayerReport report;
  report.key = "field";
  report.file = plan.field->readings.written;
  report.crs = "WGS 84";
  report.what = fmt::format("field readings, {} read, {} in the area's water", table.all.size(),
                            layer.checks.visits.size());
  report.basis = "read from the file";
  for (const FieldResidual& one : layer.checks.residuals) {
    report.verdict += (report.verdict.empty() ? "" : "; ") + residual_text(one);
  }
  if (report.verdict.empty()) {
    report.verdict = "no reading can be compared with a layer";
  }
  opening.reports.push_back(std::move(report));
}

}  // namespace

FieldLayer open_field(const Plan& plan, LayerSet& layers, Projector& grid_to_degrees,
                      Opening& opening) {
  const FieldPlan& field = *plan.field;
  const std::string text = opening.opener.read_text(field.readings, "field.readings", kMaxBytes);
  opening.files.push_back(field.readings);
  const FieldTable table = read_field_table(field, plan.light_relation, text);
  const auto warn = [&](const std::string& what) {
    opening.warnings.push_back(fmt::format("field.readings: {}: {}", field.readings.written, what));
  };
  std::for_each(table.notes.begin(), table.notes.end(), warn);
  Compared compared = compare(table, layers, grid_to_degrees);
  std::for_each(compared.notes.begin(), compared.notes.end(), warn);
  FieldLayer out;
  opening.lattices.clear();
  for (const FieldProperty property : kFieldProperties) {
    const std::vector<Residual>& own = compared.of[static_cast<std::size_t>(property)];
    if (own.empty()) {
      continue;
    }
    FieldResidual found = summary(property, own);
    found.done = act(plan, property, found, own, layers, out, opening);
    warn(fmt::format("{}; {}", residual_text(found), found.done));
    out.checks.residuals.push_back(std::move(found));
  }
  if (out.checks.residuals.empty()) {
    warn("no reading can be compared with a layer: nothing was done");
  }
  out.checks.visits = std::move(compared.visits);
  out.corrections.lattices = std::move(opening.lattices);
  add_row(plan, table, out, opening);
  return out;
}

}  // namespace tidelot
