// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "report/parts.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/core/version.hpp"

namespace tidelot::page {
namespace {

/// The layer's file as the plan writes it; of an absolute path the last part, so that a report
/// tells nothing of the machine it was made on.
std::string file_of(const LayerReport& layer, const Plan& plan) {
  const std::string written = key_value(plan, layer.key + ".file");
  const std::filesystem::path path = written;
  return path.is_absolute() ? path.filename().string() : written;
}

std::string range(const LayerReport& layer) {
  return layer.low == layer.high ? fmt::format("{:.4g}", layer.low)
                                 : fmt::format("{:.4g} to {:.4g}", layer.low, layer.high);
}

std::vector<std::string> layer_row(const LayerReport& layer, const Plan& plan) {
  const bool shapes =
      layer.key.rfind("closed", 0) == 0 || layer.key == "area.outline" || layer.key == "field";
  return {text(layer.key),
          text(file_of(layer, plan)),
          text(layer.what),
          text(layer.unit),
          text(layer.crs),
          shapes ? "" : percent(layer.cover),
          shapes ? "" : range(layer),
          text(layer.basis),
          text(layer.verdict)};
}

std::string layer_table(const ReportData& data) {
  Table table{label("sources.layers_and_where_their_values_come"),
              {{label("sources.layer")},
               {label("sources.file")},
               {label("sources.what_it_is")},
               {label("sources.unit")},
               {label("sources.reference_system")},
               {label("sources.cover"), true},
               {label("sources.range"), true},
               {label("sources.basis")},
               {label("sources.verdict")}},
              {},
              "layers"};
  for (const LayerReport& layer : data.layers) {
    table.rows.push_back(layer_row(layer, *data.plan));
  }
  return html(table);
}

std::string operations(const ReportData& data) {
  std::vector<std::string> items;
  for (const LayerReport& layer : data.layers) {
    if (!layer.operation.empty()) {
      items.push_back(text(layer.key + ": " + layer.operation));
    }
  }
  return items.empty() ? label("sources.none_was_needed") : list(items);
}

std::string low_water(const DepthSource& depth) {
  const double* offset = std::get_if<double>(&depth.low_water);
  const std::string words = offset != nullptr
                                ? plain_say(*offset < 0.0 ? "sources.m_below_the_layers_zero"
                                                          : "sources.m_above_the_layers_zero",
                                            shortest(std::abs(*offset)))
                                : label("sources.from_a_raster");
  return plain_say("sources.low_water", text(depth.datum), words);
}

/// Of each file of depths, by its name where there are several.
std::string zeros(const DepthPlan& depth) {
  if (depth.several.empty()) {
    return low_water(depth);
  }
  std::vector<std::string> items;
  for (const DepthSource& source : depth.several) {
    items.push_back(text(source.title()) + ": " + low_water(source));
  }
  return list(items);
}

/// With what it means for the widest setback of the plan.
std::string scale_words(const ReportData& data) {
  double widest = 0.0;
  for (const ClosedLayer& rule : data.closed) {
    for (const Feature& feature : rule.features) {
      widest = std::max(widest, feature.setback_m);
    }
  }
  std::string words = plain_say("sources.a_length_on_the_grid", fixed(data.grid_scale, 6),
                                fixed(100.0 * data.grid_scale_error, 4));
  if (widest > 0.0) {
    words += ": " + plain_say("sources.widest_setback",
                              in_line(distance(widest), data.plan->report.units),
                              fixed(widest * data.grid_scale_error, 3));
  }
  return words;
}

std::string reference(const ReportData& data) {
  const Grid& grid = *data.grid;
  const Plan& plan = *data.plan;
  return pairs(
      label("sources.reference"),
      std::vector<std::pair<std::string, std::string>>{
          {label("sources.map_and_grid"),
           plain_say("sources.cells_of_m_by", text(data.grid_crs_name), shortest(grid.cell_m),
                     grid.cols, grid.rows)},
          {label("sources.grid_north"),
           data.grid_convergence_deg < 0.0
               ? plain_say("sources.true_north_lies_west_of", fixed(-data.grid_convergence_deg, 2))
               : plain_say("sources.true_north_lies_east_of", fixed(data.grid_convergence_deg, 2))},
          {label("sources.scale"), scale_words(data)},
          {label("sources.positions"), label("sources.wgs_84_those_read_from")},
          {label("sources.datum_of_the_depths"), zeros(plan.depth)},
          {label("sources.tidal_range_lowest_tide"),
           plain_say("sources.m_m_from_low_water", shortest(plan.depth.tidal_range_m),
                     shortest(plan.depth.lowest_tide_m))},
          {label("sources.coordinate_operations"), operations(data)},
          {label("sources.made_with"), fmt::format("tidelot {}", text(version()))}});
}

std::string default_table(const Plan& plan) {
  Table table{label("sources.defaults_in_force_the_plan"),
              {{label("sources.key")}, {label("sources.value")}, {label("sources.basis")}},
              {},
              "keys"};
  for (const ResolvedKey& key : plan.keys) {
    if (!key.given) {
      table.rows.push_back({text(key.key), text(plain_value(key.value)),
                            label("sources.default_not_verified") +
                                (key.basis.empty() ? "" : "; " + text(translated(key.basis)))});
    }
  }
  return table.rows.empty() ? element("p", label("sources.none_the_plan_sets_every_key"))
                            : html(table);
}

std::string constant_value(const CropConstant& constant) {
  const std::string range =
      constant.low == constant.high
          ? ""
          : " " + plain_say("sources.to", shortest(constant.low), shortest(constant.high));
  return shortest(constant.value) + range;
}

std::string crop_table(const Crop& crop) {
  Table table{plain_say("sources.constants", crop.title),
              {{label("sources.constant")},
               {label("sources.value_range")},
               {label("sources.unit")},
               {label("sources.source")}},
              {},
              "keys"};
  for (const CropConstant& each : crop.constants) {
    table.rows.push_back(
        {text(each.name), constant_value(each), text(each.unit), text(each.source)});
  }
  return table.rows.empty() ? "" : html(table);
}

std::string criteria_table(const Plan& plan) {
  Table table{label("sources.criteria"),
              {{label("sources.criterion")},
               {label("sources.weight"), true},
               {label("sources.curve_value_score")}},
              {},
              ""};
  for (const CriterionPlan& each : plan.criteria) {
    std::string points;
    for (const Curve::Point& point : each.curve.points()) {
      points +=
          fmt::format("{}{}, {}", points.empty() ? "" : "; ", shortest(point.x), shortest(point.y));
    }
    table.rows.push_back({text(each.name), shortest(each.weight), points});
  }
  return table.rows.empty() ? "" : html(table);
}

}  // namespace

std::string sources(const ReportData& data) {
  return element("section id=\"sources\"", element("h2", label("sources.layers_and_sources")) +
                                               layer_table(data) + reference(data));
}

std::string assumptions(const ReportData& data) {
  return element("section id=\"assumptions\"",
                 element("h2", label("sources.assumptions")) + default_table(*data.plan) +
                     criteria_table(*data.plan) + crop_table(data.plan->crop));
}

std::string warnings(const ReportData& data) {
  std::vector<std::string> items;
  for (const std::string& warning : data.warnings) {
    items.push_back(text(translated(warning)));
  }
  return element(
      "section id=\"warnings\"",
      element("h2", label("sources.warnings")) +
          (items.empty() ? element("p", label("sources.the_run_gave_no_warning")) : list(items)));
}

}  // namespace tidelot::page
