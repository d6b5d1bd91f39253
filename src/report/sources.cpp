// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "report/html.hpp"
#include "report/parts.hpp"
#include "report/words.hpp"
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
  return layer.low == layer.high ? shortest(layer.low)
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
  Table table{"Layers and where their values come from",
              {{"Layer"},
               {"File"},
               {"What it is"},
               {"Unit"},
               {"Reference system"},
               {"Cover", true},
               {"Range", true},
               {"Basis"},
               {"Verdict"}},
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
  return items.empty() ? "none was needed" : list(items);
}

std::string low_water(const DepthSource& depth) {
  const double* offset = std::get_if<double>(&depth.low_water);
  const std::string words = offset != nullptr
                                ? fmt::format("{} m above the layer's zero", shortest(*offset))
                                : std::string("from a raster");
  return text(depth.datum) + "; low water: " + words;
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
  std::string words = fmt::format(
      "a length on the grid is {} of the length on the ground, anywhere on it and in any direction "
      "to {} %",
      fixed(data.grid_scale, 6), fixed(100.0 * data.grid_scale_error, 4));
  if (widest > 0.0) {
    words += fmt::format(": the widest setback, {}, is kept to {} m",
                         in_line(distance(widest), data.plan->report.units),
                         fixed(widest * data.grid_scale_error, 3));
  }
  return words;
}

std::string reference(const ReportData& data) {
  const Grid& grid = *data.grid;
  const Plan& plan = *data.plan;
  return pairs(
      "Reference",
      std::vector<std::pair<std::string, std::string>>{
          {"Map and grid", fmt::format("{}, cells of {} m, {} by {}", text(data.grid_crs_name),
                                       shortest(grid.cell_m), grid.cols, grid.rows)},
          {"Grid north", fmt::format("true north lies {}° {} of it in the middle of the map",
                                     fixed(std::abs(data.grid_convergence_deg), 2),
                                     data.grid_convergence_deg < 0.0 ? "west" : "east")},
          {"Scale", scale_words(data)},
          {"Positions", "WGS 84. Those read from the map are interpolated from its corners."},
          {"Datum of the depths", zeros(plan.depth)},
          {"Tidal range; lowest tide",
           fmt::format("{} m; {} m from low water", shortest(plan.depth.tidal_range_m),
                       shortest(plan.depth.lowest_tide_m))},
          {"Coordinate operations", operations(data)},
          {"Made with", fmt::format("tidelot {}", text(version()))}});
}

std::string default_table(const Plan& plan) {
  Table table{"Defaults in force: the plan does not set these",
              {{"Key"}, {"Value"}, {"Basis"}},
              {},
              "keys"};
  for (const ResolvedKey& key : plan.keys) {
    if (!key.given) {
      table.rows.push_back(
          {text(key.key), text(plain_value(key.value)),
           "default, not verified" + (key.basis.empty() ? "" : "; " + text(key.basis))});
    }
  }
  return table.rows.empty() ? element("p", "None: the plan sets every key.") : html(table);
}

std::string constant_value(const CropConstant& constant) {
  const std::string range =
      constant.low == constant.high
          ? ""
          : fmt::format(" ({} to {})", shortest(constant.low), shortest(constant.high));
  return shortest(constant.value) + range;
}

std::string crop_table(const Crop& crop) {
  Table table{crop.title + ": constants",
              {{"Constant"}, {"Value (range)"}, {"Unit"}, {"Source"}},
              {},
              "keys"};
  for (const CropConstant& each : crop.constants) {
    table.rows.push_back(
        {text(each.name), constant_value(each), text(each.unit), text(each.source)});
  }
  return table.rows.empty() ? "" : html(table);
}

std::string criteria_table(const Plan& plan) {
  Table table{"Criteria", {{"Criterion"}, {"Weight", true}, {"Curve: value, score"}}, {}, ""};
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
  return element("section id=\"sources\"",
                 element("h2", "Layers and sources") + layer_table(data) + reference(data));
}

std::string assumptions(const ReportData& data) {
  return element("section id=\"assumptions\"",
                 element("h2", "Assumptions") + default_table(*data.plan) +
                     criteria_table(*data.plan) + crop_table(data.plan->crop));
}

std::string warnings(const ReportData& data) {
  std::vector<std::string> items;
  for (const std::string& warning : data.warnings) {
    items.push_back(text(warning));
  }
  return element("section id=\"warnings\"",
                 element("h2", "Warnings") +
                     (items.empty() ? element("p", "The run gave no warning.") : list(items)));
}

}  // namespace tidelot::page
