// SPDX-License-Identifier: Apache-2.0
#include "value_column.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

bool is_number(const OGRFieldDefn& field) {
  const OGRFieldType type = field.GetType();
  return type == OFTReal || type == OFTInteger || type == OFTInteger64;
}

std::vector<std::string> number_fields(OGRFeatureDefn& columns) {
  std::vector<std::string> names;
  for (int i = 0; i < columns.GetFieldCount(); ++i) {
    if (is_number(*columns.GetFieldDefn(i))) {
      names.emplace_back(columns.GetFieldDefn(i)->GetNameRef());
    }
  }
  return names;
}

std::string list(const std::vector<std::string>& names) {
  return names.empty() ? "none" : foreign_text(fmt::format("{}", fmt::join(names, ", ")));
}

int planned_field(const InputFile& input, OGRFeatureDefn& columns) {
  const std::string& wanted = input.file.field;
  const int index = columns.GetFieldIndex(wanted.c_str());
  const auto names = number_fields(columns);
  if (index < 0) {
    const std::string near = nearest_word(wanted, names);
    throw input.error(fmt::format(
        "has no field \"{}\"{}; its fields of numbers: {}", foreign_text(wanted),
        near.empty() ? "" : fmt::format(" (\"{}\"?)", foreign_text(near)), list(names)));
  }
  if (!is_number(*columns.GetFieldDefn(index))) {
    throw input.error(fmt::format("its field \"{}\" holds no numbers; its fields of numbers: {}",
                                  foreign_text(wanted), list(names)));
  }
  return index;
}

/// Object classes of a chart whose depths are read, and the attribute that holds them.
struct ChartLayer {
  const char* layer;
  const char* field;
  const char* of;
};
constexpr std::array kChartLayers{
    ChartLayer{"DEPARE", "DRVAL1",
               "DRVAL1, the shallow limit of each depth area (the careful reading)"},
    ChartLayer{"DRGARE", "DRVAL1",
               "DRVAL1, the shallow limit of each dredged area (the careful reading)"},
    ChartLayer{"SOUNDG", "DEPTH", "the soundings' depths"}};

/// What a chart says of all its depths (DSPM: unit code 1 is metres; codes of the sounding datum:
/// the VERDAT list of S-57).
void read_chart_head(const InputFile& input, GDALDataset& chart, ValueColumn& column) {
  OGRLayer* const head = chart.GetLayerByName("DSID");
  const FeatureHandle first(head != nullptr ? head->GetNextFeature() : nullptr);
  if (first == nullptr) {
    return;
  }
  const int unit = first->GetFieldIndex("DSPM_DUNI");
  if (unit >= 0 && first->GetFieldAsInteger(unit) != 1) {
    throw input.error(fmt::format("its depths are not in metres (DUNI {}); convert it first",
                                  first->GetFieldAsInteger(unit)));
  }
  column.unit = "m";
  constexpr std::array<std::pair<int, const char*>, 7> kDatums{{{3, "mean sea level"},
                                                                {5, "mean low water"},
                                                                {12, "mean lower low water"},
                                                                {16, "mean high water"},
                                                                {21, "mean higher high water"},
                                                                {23, "lowest astronomical tide"},
                                                                {24, "a local datum"}}};
  const int datum = first->GetFieldIndex("DSPM_SDAT");
  const int code = datum >= 0 ? first->GetFieldAsInteger(datum) : 0;
  const auto known = std::find_if(kDatums.begin(), kDatums.end(),
                                  [code](const auto& each) { return each.first == code; });
  column.of += fmt::format("; the chart's sounding datum: {} (code {})",
                           known == kDatums.end() ? "see S-57" : known->second, code);
}

/// The lone field with a name that says depth; -1 where there is none or more than one.
int plain_field(OGRFeatureDefn& columns) {
  int found = -1;
  for (const char* name : {"depth", "z", "elevation"}) {
    const int index = columns.GetFieldIndex(name);
    if (index >= 0 && is_number(*columns.GetFieldDefn(index))) {
      if (found >= 0) {
        return -1;
      }
      found = index;
    }
  }
  return found;
}

ValueColumn field_column(OGRFeatureDefn& columns, int field) {
  return {field,
          fmt::format("field \"{}\"", foreign_text(columns.GetFieldDefn(field)->GetNameRef())), "",
          ""};
}

}  // namespace

ValueColumn value_column(const InputFile& input, const VectorLayer& opened) {
  OGRFeatureDefn& columns = *opened.layer->GetLayerDefn();
  ValueColumn column;
  if (!input.file.field.empty()) {
    column = field_column(columns, planned_field(input, columns));
  } else {
    const std::string name = opened.layer->GetName();
    const auto chart = std::find_if(kChartLayers.begin(), kChartLayers.end(), [&](const auto& c) {
      return name == c.layer && columns.GetFieldIndex(c.field) >= 0;
    });
    if (chart != kChartLayers.end()) {
      column = {columns.GetFieldIndex(chart->field), chart->of, "", "down"};
    } else if (OGR_GT_HasZ(opened.layer->GetGeomType()) != 0) {
      column = {-1, "the heights of its points", "", ""};
    } else if (const int field = plain_field(columns); field >= 0) {
      column = field_column(columns, field);
    } else {
      throw input.error(
          fmt::format("does not say which field holds the depth; set field to one "
                      "of: {}",
                      list(number_fields(columns))));
    }
  }
  if (opened.dataset->GetDriver() != nullptr &&
      std::string(opened.dataset->GetDriverName()) == "S57") {
    read_chart_head(input, *opened.dataset, column);
  }
  return column;
}

double value_in(const ValueColumn& column, const OGRFeature& feature, const OGRGeometry& geometry) {
  constexpr double kNone = std::numeric_limits<double>::quiet_NaN();
  if (column.field >= 0) {
    return feature.IsFieldSetAndNotNull(column.field) ? feature.GetFieldAsDouble(column.field)
                                                      : kNone;
  }
  const bool point = wkbFlatten(geometry.getGeometryType()) == wkbPoint;
  return point && geometry.Is3D() != 0 ? geometry.toPoint()->getZ() : kNone;
}

}  // namespace tidelot::geoio
