// SPDX-License-Identifier: Apache-2.0
#include "tidelot/layers/layer_set.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "area_grid.hpp"
#include "layer_cover.hpp"
#include "layer_fields.hpp"
#include "outline_mask.hpp"
#include "tidelot/core/error.hpp"

namespace tidelot {
namespace {

/// Around the area, beyond a rule's setback, shapes are read too: a site's distance to the nearest
/// closed area is told although nothing is closed by it.
constexpr double kAround_m = 11100.0;

/// What all clones share and none changes.
struct Shared {
  Grid grid;
  std::string crs_name;
  OutlineMask outline;
  std::vector<ClosedLayer> closed;
  std::vector<LayerReport> reports;
  std::vector<std::string> warnings;
  std::vector<FileRef> files;
};

class OpenLayers final : public LayerSet {
 public:
  OpenLayers(std::shared_ptr<const Shared> shared, LayerFields fields)
      : shared_(std::move(shared)), fields_(std::move(fields)) {}

  [[nodiscard]] const Grid& grid() const override { return shared_->grid; }
  [[nodiscard]] const std::string& grid_crs_name() const override { return shared_->crs_name; }
  [[nodiscard]] TileLayers sample(const Tile& tile) override {
    TileLayers layers = fields_.sample(grid(), tile);
    layers.inside = shared_->outline.inside(grid(), tile);
    return layers;
  }
  [[nodiscard]] std::vector<float> sample_depth(const Tile& tile) override {
    return fields_.sample_depth(grid(), tile);
  }
  [[nodiscard]] const std::vector<ClosedLayer>& closed() const override { return shared_->closed; }
  [[nodiscard]] const std::vector<LayerReport>& reports() const override {
    return shared_->reports;
  }
  [[nodiscard]] const std::vector<std::string>& warnings() const override {
    return shared_->warnings;
  }
  [[nodiscard]] const std::vector<FileRef>& files() const override { return shared_->files; }
  [[nodiscard]] std::unique_ptr<LayerSet> clone() const override {
    return std::make_unique<OpenLayers>(shared_, fields_.clone());
  }

 private:
  std::shared_ptr<const Shared> shared_;
  LayerFields fields_;
};

/// Reads the shapes of a table of the plan, and reports on them.
FeatureLayer read_shapes(const FileRef& file, const std::string& where, const std::string& key,
                         const LonLatBox& box, Opening& opening) {
  FeatureLayer shapes = opening.opener.read_features(file, where, key, opening.grid.crs, box);
  LayerReport report;
  report.key = key;
  report.what =
      fmt::format("{} shapes, {} in or near the area", shapes.format, shapes.features.size());
  report.crs = shapes.crs_name;
  report.operation = shapes.operation;
  report.basis = "from the file";
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

OutlineMask read_outline(const AreaPlan& area, Projector& grid_to_degrees, Opening& opening) {
  if (!area.outline) {
    return {};
  }
  const LonLatBox box = degrees_around(opening.grid, grid_to_degrees, opening.grid.cell_m);
  const OutlineMask mask(opening.grid,
                         read_shapes(*area.outline, "", "area.outline", box, opening).features);
  const auto inside = mask.inside(opening.grid, {0, 0, opening.grid.cols, opening.grid.rows});
  if (std::find(inside.begin(), inside.end(), 1) == inside.end()) {
    throw Error(Fault::input, fmt::format("area.outline: {}: no polygon of it holds a cell of the "
                                          "area; check area.bounds, or that it holds polygons",
                                          area.outline->written));
  }
  return mask;
}

std::vector<ClosedLayer> read_closed(const Plan& plan, Projector& grid_to_degrees,
                                     Opening& opening) {
  std::vector<ClosedLayer> closed;
  for (std::size_t i = 0; i < plan.closed.size(); ++i) {
    const ClosedPlan& rule = plan.closed[i];
    const LonLatBox box = degrees_around(opening.grid, grid_to_degrees, kAround_m + rule.setback_m);
    FeatureLayer shapes =
        read_shapes(rule.file, rule.where, fmt::format("closed[{}]", i), box, opening);
    closed.push_back({rule, std::move(shapes.features), std::move(shapes.crs_name)});
  }
  return closed;
}

/// Each file once, in the order in which it is first named.
std::vector<FileRef> each_once(const std::vector<FileRef>& files) {
  std::vector<FileRef> unique;
  for (const FileRef& file : files) {
    const bool seen = std::any_of(unique.begin(), unique.end(),
                                  [&](const FileRef& other) { return other.path == file.path; });
    if (!seen) {
      unique.push_back(file);
    }
  }
  return unique;
}

}  // namespace

std::unique_ptr<LayerSet> open_layers(const Plan& plan, Opener& opener) {
  const LonLatBox bounds = bounds_of(plan, opener);
  Opening opening{opener, grid_over(plan.area, bounds, opener), bounds, {}, {}, {}, {}};
  const auto grid_to_degrees = opener.projector(opening.grid.crs, "EPSG:4326", "area.crs", bounds);
  auto shared = std::make_shared<Shared>();
  shared->grid = opening.grid;
  shared->crs_name = opener.crs_name(opening.grid.crs);
  shared->outline = read_outline(plan.area, *grid_to_degrees, opening);
  LayerFields fields = open_fields(plan, opening);
  shared->closed = read_closed(plan, *grid_to_degrees, opening);
  auto layers = std::make_unique<OpenLayers>(shared, std::move(fields));
  report_cover(plan, *layers, opening.reports, opening.warnings);
  shared->reports = std::move(opening.reports);
  shared->warnings = std::move(opening.warnings);
  shared->files = each_once(opening.files);
  return layers;
}

}  // namespace tidelot
