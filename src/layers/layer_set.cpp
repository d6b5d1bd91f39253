// SPDX-License-Identifier: Apache-2.0
#include "tidelot/layers/layer_set.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "area_grid.hpp"
#include "field_layer.hpp"
#include "file_wishes.hpp"
#include "land_mask.hpp"
#include "layer_cover.hpp"
#include "layer_fields.hpp"
#include "outline_mask.hpp"
#include "shape_layers.hpp"
#include "tidelot/core/text.hpp"
#include "wind_layer.hpp"

namespace tidelot {
namespace {

/// What all clones share and none changes.
struct Shared {
  Grid grid;
  std::string crs_name;
  OutlineMask outline;
  LandMask land;
  std::vector<ClosedLayer> closed;
  std::vector<NearLayer> near;
  std::vector<LayerReport> reports;
  std::vector<std::string> warnings;
  std::vector<FileRef> files;
  std::optional<WindRose> winds;
  FieldChecks field_checks;
};

class OpenLayers final : public LayerSet {
 public:
  OpenLayers(std::shared_ptr<const Shared> shared, LayerFields fields,
             FieldCorrections corrections = {})
      : shared_(std::move(shared)),
        fields_(std::move(fields)),
        corrections_(std::move(corrections)) {}

  /// From here on what is sampled has the readings from the boat worked in.
  void correct(FieldCorrections corrections) { corrections_ = std::move(corrections); }

  [[nodiscard]] const Grid& grid() const override { return shared_->grid; }
  [[nodiscard]] const std::string& grid_crs_name() const override { return shared_->crs_name; }
  [[nodiscard]] TileLayers sample(const Tile& tile) override {
    TileLayers layers = fields_.sample(grid(), tile);
    layers.inside = shared_->outline.inside(grid(), tile);
    shared_->land.dry(grid(), tile, layers.depth_low_water);
    corrections_.apply(grid(), tile, layers);
    return layers;
  }
  [[nodiscard]] std::vector<float> sample_depth(const Tile& tile) override {
    std::vector<float> depth = fields_.sample_depth(grid(), tile);
    shared_->land.dry(grid(), tile, depth);
    return depth;
  }
  [[nodiscard]] const std::vector<ClosedLayer>& closed() const override { return shared_->closed; }
  [[nodiscard]] const std::vector<NearLayer>& near() const override { return shared_->near; }
  [[nodiscard]] const std::vector<LayerReport>& reports() const override {
    return shared_->reports;
  }
  [[nodiscard]] const std::vector<std::string>& warnings() const override {
    return shared_->warnings;
  }
  [[nodiscard]] const FieldChecks& field_checks() const override { return shared_->field_checks; }
  [[nodiscard]] const std::vector<FileRef>& files() const override { return shared_->files; }
  [[nodiscard]] const std::optional<WindRose>& winds() const override { return shared_->winds; }
  [[nodiscard]] std::unique_ptr<LayerSet> clone() const override {
    return std::make_unique<OpenLayers>(shared_, fields_.clone(), corrections_.clone());
  }

 private:
  std::shared_ptr<const Shared> shared_;
  LayerFields fields_;
  FieldCorrections corrections_;
};

/// The readings from the boat, held against the layers that are open.
FieldLayer field_of(const Plan& plan, OpenLayers& layers, Projector& grid_to_degrees,
                    Opening& opening) {
  if (opening.depth) {  // the fields have moved since it was made
    opening.depth = [&layers](const Tile& tile) { return layers.sample_depth(tile); };
  }
  return opened("field", opening, FieldLayer{},
                [&] { return open_field(plan, layers, grid_to_degrees, opening); });
}

/// An operation that PROJ calls ballpark is only there because the plan allows it.
void warn_ballpark(Opening& opening) {
  for (const LayerReport& report : opening.reports) {
    if (lower_ascii(report.operation).find("ballpark") != std::string::npos) {
      opening.warnings.push_back(
          fmt::format("{}: no known operation ties its reference system to the grid's; as [run] "
                      "allow says, its coordinates are taken over as they are: they may be off by "
                      "hundreds of metres",
                      report.key));
    }
  }
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

/// Names and cells of the files stand in what is said of a layer.
void make_safe(Opening& opening) {
  for (LayerReport& report : opening.reports) {
    for (std::string* text :
         {&report.key, &report.what, &report.unit, &report.crs, &report.operation, &report.steps,
          &report.verdict, &report.basis, &report.file, &report.times, &report.gap,
          &report.error_basis, &report.error_unit, &report.called}) {
      *text = one_line(*text);
    }
  }
  for (std::string& warning : opening.warnings) {
    warning = one_line(warning);
  }
}

}  // namespace

std::unique_ptr<LayerSet> open_layers(const Plan& plan, Opener& opener,
                                      std::vector<Error>* problems) {
  const LonLatBox bounds = bounds_of(plan, opener);
  Opening opening{opener,  grid_over(plan.area, bounds, opener),
                  bounds,  plan.farm.line_depth_m,
                  {},      {},
                  {},      {},
                  {},      {},
                  problems};
  const auto grid_to_degrees = opener.projector(opening.grid.crs, "EPSG:4326", "area.crs", bounds);
  if (auto* const foreseeing = dynamic_cast<ForeseeingOpener*>(&opener)) {
    foreseeing->expect(file_wishes(plan, opening.grid, bounds, *grid_to_degrees));
  }
  auto shared = std::make_shared<Shared>();
  shared->grid = opening.grid;
  shared->crs_name = opener.crs_name(opening.grid.crs);
  shared->outline = opened("area.outline", opening, OutlineMask{},
                           [&] { return read_outline(plan.area, *grid_to_degrees, opening); });
  LayerFields fields = open_depth(plan, opening);
  if (plan.land) {
    shared->land = opened("land", opening, LandMask{},
                          [&] { return read_land(*plan.land, *grid_to_degrees, opening); });
  }
  if (const DepthOfTile depth = depth_of(fields, opening)) {
    opening.depth = [depth, &opening, &land = shared->land](const Tile& tile) {
      std::vector<float> values = depth(tile);
      land.dry(opening.grid, tile, values);
      return values;
    };
  }
  open_water(plan, opening, fields);
  if (plan.land) {
    warn_of_lost_water(shared->land, fields, *plan.land, opening);
  }
  shared->closed = read_closed(plan, *grid_to_degrees, opening);
  shared->near = read_near(plan, *grid_to_degrees, opening);
  if (plan.waves) {
    shared->winds = opened("waves", opening, std::optional<WindRose>{},
                           [&] { return std::optional(read_winds(*plan.waves, opening)); });
  }
  auto layers = std::make_unique<OpenLayers>(shared, std::move(fields));
  if (plan.field) {
    FieldLayer field = field_of(plan, *layers, *grid_to_degrees, opening);
    shared->field_checks = std::move(field.checks);
    layers->correct(std::move(field.corrections));
  }
  report_cover(plan, *layers, opening.reports, opening.warnings, opening.sea_witnesses);
  warn_ballpark(opening);
  make_safe(opening);
  shared->reports = std::move(opening.reports);
  shared->warnings = std::move(opening.warnings);
  shared->files = each_once(opening.files);
  return layers;
}

}  // namespace tidelot
