// SPDX-License-Identifier: Apache-2.0
#include "shape_layers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "area_grid.hpp"
#include "standing.hpp"
#include "tidelot/core/error.hpp"

namespace tidelot {
namespace {

constexpr double kAround_m = 11100.0;

/// A table of the plan: where its row and run.json have it, and for people.
struct TableKey {
  TableKey(const char* alone) : key(alone), called(alone) {}
  TableKey(std::string_view table, std::size_t index, const std::string& name)
      : key(fmt::format("{}[{}]", table, index)), called(table_called(table, index, name)) {}
  std::string key;
  std::string called;
};

/// Reads the shapes of a table of the plan, and reports on them.
FeatureLayer read_shapes(const FileRef& file, const std::string& where, const TableKey& key,
                         const LonLatBox& box, Opening& opening,
                         const FeatureColumns& columns = {}) {
  FeatureLayer shapes =
      opening.opener.read_features(file, where, key.called, opening.grid.crs, box, columns);
  LayerReport report;
  report.key = key.key;
  report.called = key.called;
  report.file = file.written;
  report.what =
      fmt::format("{} shapes, {} in or near the area", shapes.format, shapes.features.size());
  report.crs = shapes.crs_name;
  report.operation = shapes.operation;
  report.basis = "from the file" + (shapes.crs_basis.empty() ? "" : "; " + shapes.crs_basis);
  if (shapes.repaired > 0) {
    report.verdict = fmt::format("{} invalid shapes were repaired", shapes.repaired);
  } else if (shapes.features.empty()) {
    report.verdict = "no shape in or near the area";
  }
  opening.warnings.insert(opening.warnings.end(), shapes.warnings.begin(), shapes.warnings.end());
  opening.reports.push_back(std::move(report));
  opening.files.push_back(file);
  return shapes;
}

std::string closes_nothing(const ClosedPlan& rule, const std::string& called) {
  const std::string passes =
      rule.where.empty() ? "" : fmt::format(" and passes where = \"{}\"", rule.where);
  return fmt::format(
      "{}: no shape of {} lies in or near the area{}; the rule closes nothing: check its place and "
      "the filter",
      called, rule.file.written, passes);
}

/// Setback and standing of each shape; those that the status calls open are left out. Says in the
/// row what the status column held.
void settle(const ClosedPlan& rule, bool food, FeatureLayer& shapes, LayerReport& report) {
  std::size_t open = 0;
  std::size_t unknown = 0;
  for (Feature& feature : shapes.features) {
    feature.setback_m = feature.own_setback.value_or(rule.setback_m);
    if (!rule.status_field.empty()) {
      feature.standing = standing_of(feature.status, food);
      open += feature.standing == Standing::open ? 1 : 0;
      unknown += feature.standing == Standing::unknown ? 1 : 0;
    }
  }
  std::erase_if(shapes.features,
                [](const Feature& feature) { return feature.standing == Standing::open; });
  if (!rule.status_field.empty()) {
    report.verdict += fmt::format("{}{}: {} open, {} not known", report.verdict.empty() ? "" : "; ",
                                  rule.status_field, open, unknown);
  }
}

}  // namespace

double reach_m(const ClosedPlan& rule) { return kAround_m + rule.setback_m; }

double reach_m(const NearPlan& test) { return kAround_m + test.distance_m; }

OutlineMask read_outline(const AreaPlan& area, Projector& grid_to_degrees, Opening& opening) {
  if (!area.outline) {
    return {};
  }
  const LonLatBox box = degrees_around(opening.grid, grid_to_degrees, opening.grid.cell_m);
  OutlineMask mask(opening.grid,
                   read_shapes(*area.outline, "", "area.outline", box, opening).features);
  const auto inside = mask.inside(opening.grid, {0, 0, opening.grid.cols, opening.grid.rows});
  if (std::find(inside.begin(), inside.end(), 1) == inside.end()) {
    throw Error(Fault::input, fmt::format("area.outline: {}: no polygon of it holds a cell of the "
                                          "area; check area.bounds, or that it holds polygons",
                                          area.outline->written));
  }
  return mask;
}

LandMask read_land(const LandPlan& land, Projector& grid_to_degrees, Opening& opening) {
  const LonLatBox box = degrees_around(opening.grid, grid_to_degrees, opening.grid.cell_m);
  FeatureLayer shapes = read_shapes(land.file, land.where, "land", box, opening);
  for (Feature& feature : shapes.features) {
    if (!close_lines(feature.shape)) {
      throw Error(Fault::input,
                  fmt::format("land: {}: holds lines that do not close or points, which do not say "
                              "on which side land is; make polygons of them (of the land, or of "
                              "the water with inside = \"water\")",
                              land.file.written));
    }
  }
  return {opening.grid, shapes.features, land.shapes_are_water};
}

std::vector<ClosedLayer> read_closed(const Plan& plan, Projector& grid_to_degrees,
                                     Opening& opening) {
  std::vector<ClosedLayer> closed;
  for (std::size_t i = 0; i < plan.closed.size(); ++i) {
    const ClosedPlan& rule = plan.closed[i];
    const TableKey key("closed", i, rule.name);
    const LonLatBox box = degrees_around(opening.grid, grid_to_degrees, reach_m(rule));
    FeatureLayer shapes = opened(key.key, opening, FeatureLayer{}, [&] {
      FeatureLayer read = read_shapes(rule.file, rule.where, key, box, opening,
                                      {rule.setback_field, rule.status_field});
      if (read.features.empty()) {
        opening.warnings.push_back(closes_nothing(rule, key.called));
      }
      settle(rule, plan.farm.food, read, opening.reports.back());
      return read;
    });
    closed.push_back({rule, std::move(shapes.features), std::move(shapes.crs_name)});
  }
  return closed;
}

std::vector<NearLayer> read_near(const Plan& plan, Projector& grid_to_degrees, Opening& opening) {
  std::vector<NearLayer> near;
  for (std::size_t i = 0; i < plan.near.size(); ++i) {
    const NearPlan& test = plan.near[i];
    const TableKey key("near", i, test.name);
    const LonLatBox box = degrees_around(opening.grid, grid_to_degrees, reach_m(test));
    FeatureLayer shapes = opened(key.key, opening, FeatureLayer{}, [&] {
      return read_shapes(test.file, test.where, key, box, opening);
    });
    near.push_back({test, std::move(shapes.features)});
  }
  return near;
}

}  // namespace tidelot
