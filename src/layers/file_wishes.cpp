// SPDX-License-Identifier: Apache-2.0
#include "file_wishes.hpp"

#include <fmt/format.h>

#include "area_grid.hpp"
#include "layer_fields.hpp"
#include "months.hpp"
#include "shape_layers.hpp"

namespace tidelot {
namespace {

using As = FileWish::As;

void add_raster(const std::string& key, const FileRef& file, std::vector<FileWish>& wishes) {
  wishes.push_back({As::raster, file, key});
}

void add_water(const WaterPlan& plan, std::vector<FileWish>& wishes) {
  if (const auto* source = std::get_if<FileRef>(&plan.source)) {
    for (FileRef& file : month_files(*source)) {
      add_raster(plan.key, file, wishes);
      if (!plan.northward.empty()) {
        file.variable = plan.northward;
        add_raster(plan.key, file, wishes);
      }
    }
  }
}

void add_depths(const Plan& plan, const Grid& grid, const LonLatBox& bounds,
                std::vector<FileWish>& wishes) {
  for (const DepthSource& source : plan.depth.sources()) {
    wishes.push_back({As::depths, source.file, source.key, "", grid.crs, bounds});
    if (const auto* low_water = std::get_if<FileRef>(&source.low_water)) {
      add_raster(source.key + ".low_water_m", *low_water, wishes);
    }
  }
}

void add_shapes(const Plan& plan, const Grid& grid, Projector& grid_to_degrees,
                std::vector<FileWish>& wishes) {
  const auto add = [&](const FileRef& file, const std::string& key, const std::string& where,
                       double around_m, const FeatureColumns& columns) {
    wishes.push_back({As::shapes, file, key, where, grid.crs,
                      degrees_around(grid, grid_to_degrees, around_m), columns});
  };
  for (std::size_t i = 0; i < plan.closed.size(); ++i) {
    const ClosedPlan& rule = plan.closed[i];
    add(rule.file, table_called("closed", i, rule.name), rule.where, reach_m(rule),
        {rule.setback_field, rule.status_field});
  }
  for (std::size_t i = 0; i < plan.near.size(); ++i) {
    const NearPlan& test = plan.near[i];
    add(test.file, table_called("near", i, test.name), test.where, reach_m(test), {});
  }
  if (plan.land) {
    add(plan.land->file, "land", plan.land->where, grid.cell_m, {});
  }
  if (plan.area.outline) {
    add(*plan.area.outline, "area.outline", "", grid.cell_m, {});
  }
}

}  // namespace

std::vector<FileWish> file_wishes(const Plan& plan, const Grid& grid, const LonLatBox& bounds,
                                  Projector& grid_to_degrees) {
  std::vector<FileWish> wishes;
  add_depths(plan, grid, bounds, wishes);
  for (const WaterPlan* property :
       {&plan.temperature, &plan.salinity, &plan.light, &plan.nitrogen, &plan.current}) {
    add_water(*property, wishes);
  }
  for (const auto* property : {&plan.nitrate, &plan.ammonium}) {
    if (*property) {
      add_water(**property, wishes);
    }
  }
  if (const auto* sun = std::get_if<FileRef>(&plan.sun.source)) {
    for (const FileRef& file : month_files(*sun)) {
      add_raster("sun", file, wishes);
    }
  }
  for (const CriterionPlan& criterion : plan.criteria) {
    if (criterion.file) {
      add_raster(own_key(criterion), *criterion.file, wishes);
    }
  }
  add_shapes(plan, grid, grid_to_degrees, wishes);
  return wishes;
}

}  // namespace tidelot
