// SPDX-License-Identifier: Apache-2.0
#include "property_field.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "layer_units.hpp"
#include "station_field.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

/// A field of values from the plan and its report.
Field plan_field(const WaterPlan& plan, const Monthly& values, bool steady, Opening& opening) {
  const auto& [key, quantity, unit] = std::tie(plan.key, plan.quantity, plan.unit);
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
  keep_planned_error(plan.error, quantity, choice.conversion, report);
  opening.reports.push_back(std::move(report));
  return field;
}

}  // namespace

RasterWish file_wish(const WaterPlan& plan, const FileRef& file, const Opening& opening) {
  RasterWish wish{plan.key, file, plan.quantity, plan.unit, 1.0, true, std::nullopt};
  wish.steps = plan.steps;
  wish.line_depth_m = opening.line_depth_m;
  wish.northward = plan.northward;
  return wish;
}

FileField file_field(const WaterPlan& plan, const RasterWish& wish, Opening& opening) {
  FileField file = open_raster_field(wish, opening);
  keep_planned_error(plan.error, plan.quantity, file.field.conversion, opening.reports.back());
  return file;
}

FileField file_field(const WaterPlan& plan, const FileRef& file, Opening& opening) {
  return file_field(plan, file_wish(plan, file, opening), opening);
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
    return plan_field(plan, values, true, opening);
  }
  return plan_field(plan, std::get<Monthly>(plan.source), false, opening);
}

}  // namespace tidelot
