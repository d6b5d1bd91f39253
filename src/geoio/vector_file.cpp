// SPDX-License-Identifier: Apache-2.0
#include "vector_file.hpp"

#include <cpl_string.h>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <stdexcept>
#include <utility>
#include <vector>

#include "filter_words.hpp"
#include "gdal_support.hpp"
#include "input_file.hpp"
#include "projector.hpp"
#include "tidelot/core/text.hpp"
#include "value_column.hpp"
#include "vector_layer.hpp"
#include "vector_shape.hpp"

namespace tidelot::geoio {
namespace {

constexpr int kEdgePoints = 33;
constexpr double kMaxSetback_m = 10000.0;  // shapes are read this far around the area
constexpr double kFarOutside = 1.0;        // degrees around the box beyond which shapes are cut off

LonLatBox grown(const LonLatBox& box, double degrees) {
  return {std::max(-180.0, box.west - degrees), std::max(-90.0, box.south - degrees),
          std::min(180.0, box.east + degrees), std::min(90.0, box.north + degrees)};
}

/// The box in the layer's own system, by its densified outline.
OGREnvelope envelope_of(const LonLatBox& box, Projector& degrees_to_layer) {
  std::vector<XY> points;
  for (int i = 0; i < kEdgePoints; ++i) {
    const double t = static_cast<double>(i) / (kEdgePoints - 1);
    const double lon = box.west + t * (box.east - box.west);
    const double lat = box.south + t * (box.north - box.south);
    points.insert(points.end(),
                  {{lon, box.south}, {lon, box.north}, {box.west, lat}, {box.east, lat}});
  }
  degrees_to_layer.forward(points);
  OGREnvelope envelope;
  for (const XY& p : points) {
    if (std::isfinite(p.x)) {
      envelope.Merge(p.x, p.y);
    }
  }
  return envelope;
}

OGRPolygon rectangle(const OGREnvelope& e) {
  OGRLinearRing ring;
  ring.addPoint(e.MinX, e.MinY);
  ring.addPoint(e.MaxX, e.MinY);
  ring.addPoint(e.MaxX, e.MaxY);
  ring.addPoint(e.MinX, e.MaxY);
  ring.closeRings();
  OGRPolygon polygon;
  polygon.addRing(&ring);
  return polygon;
}

/// The column that names a feature, -1 where there is none.
int label_field(OGRLayer& layer) {
  OGRFeatureDefn& columns = *layer.GetLayerDefn();
  for (const char* name : {"name", "objnam", "label"}) {
    const int index = columns.GetFieldIndex(name);  // does not look at the case
    if (index >= 0) {
      return index;
    }
  }
  return -1;
}

std::vector<std::string> field_names(OGRLayer& layer) {
  OGRFeatureDefn& columns = *layer.GetLayerDefn();
  std::vector<std::string> names;
  names.reserve(static_cast<std::size_t>(columns.GetFieldCount()));
  for (int i = 0; i < columns.GetFieldCount(); ++i) {
    names.emplace_back(columns.GetFieldDefn(i)->GetNameRef());
  }
  return names;
}

class FeatureReader {
 public:
  FeatureReader(const InputFile& input, const std::string& crs, const LonLatBox& box,
                const FeatureColumns& columns)
      : input_(input),
        opened_(open_vector_layer(input)),
        own_(reference_text(opened_.reference)),
        to_grid_(make_projector(own_, crs, input.key, box, input.allow_ballpark)) {
    if (!is_whole_earth(box)) {
      const auto to_layer = make_projector("EPSG:4326", own_, input.key, box, input.allow_ballpark);
      filter_ = envelope_of(box, *to_layer);
      cut_ = envelope_of(grown(box, kFarOutside), *to_layer);
    }
    label_ = label_field(*opened_.layer);
    setback_ = column(columns.setback, "setback_field");
    status_ = column(columns.status, "status_field");
    result_.crs_name = reference_name(opened_.reference);
    result_.format = opened_.dataset->GetDriverName();
    result_.operation = to_grid_->operation();
    result_.crs_basis = opened_.crs_basis;
  }

  /// Every feature brings a value along.
  ValueColumn take_values() {
    column_ = value_column(input_, opened_);
    return *column_;
  }

  FeatureLayer read(const std::string& where) {
    const Failures failures;
    set_where(where);
    if (filter_.IsInit() && opened_.layer->TestCapability(OLCFastSpatialFilter)) {
      count_hidden_empty(where);
      opened_.layer->SetSpatialFilterRect(filter_.MinX, filter_.MinY, filter_.MaxX, filter_.MaxY);
    }
    for (const FeatureHandle& feature : *opened_.layer) {
      read_feature(*feature);
    }
    if (failures.any()) {
      throw input_.error(
          fmt::format("its features cannot be read ({}); the file is damaged or cut "
                      "short, get it anew",
                      failures.text()));
    }
    if (empty_ > 0) {
      warn(fmt::format("{} features without a geometry are left out", empty_));
    }
    return std::move(result_);
  }

 private:
  void warn(const std::string& text) {
    result_.warnings.push_back(
        fmt::format("{}: {}: {}", input_.key, foreign_text(input_.file.written), text));
  }

  /// OGR SQL has no queries inside a filter; a GeoPackage would run one, and it may never end.
  void refuse_query(const std::string& where) const {
    if (holds_word_outside_quotes(where, "select")) {
      throw Error(Fault::input, fmt::format("{}.where: \"{}\" holds a query of its own; compare "
                                            "columns with values only",
                                            input_.key, foreign_text(where)));
    }
  }

  /// Some drivers take any filter and fail on the first feature, so one is asked for.
  void set_where(const std::string& where) {
    refuse_query(where);
    const Failures failures;
    const bool taken =
        opened_.layer->SetAttributeFilter(where.empty() ? nullptr : where.c_str()) == OGRERR_NONE;
    const FeatureHandle first(taken ? opened_.layer->GetNextFeature() : nullptr);
    opened_.layer->ResetReading();
    if (!where.empty() && (!taken || failures.any())) {
      refuse_filter(where);
    }
  }

  [[noreturn]] void refuse_filter(const std::string& where) const {
    std::vector<std::string> fields = field_names(*opened_.layer);
    const std::string all = foreign_text(fmt::format("{}", fmt::join(fields, ", ")));
    for (const char* own : {"fid", "rowid", "ogr_geometry", "ogr_style", "ogr_geom_area"}) {
      fields.emplace_back(own);  // the library's own
    }
    fields.emplace_back(opened_.layer->GetFIDColumn());
    fields.emplace_back(opened_.layer->GetGeometryColumn());
    const std::string unknown = unknown_field(where, fields);
    const std::string what =
        unknown.empty() ? "is no filter: compare fields with values, as in status = 'mapped'"
                        : fmt::format("names \"{}\", which is no field", foreign_text(unknown));
    throw Error(Fault::input,
                fmt::format("{}.where: \"{}\" {}; {} has {}", input_.key, foreign_text(where), what,
                            foreign_text(input_.file.written),
                            all.empty() ? "no fields" : "the fields " + all));
  }

  /// Through a spatial index, features without a geometry are never seen; GeoPackage can be asked.
  void count_hidden_empty(const std::string& where) {
    const std::string column = opened_.layer->GetGeometryColumn();
    if (result_.format != "GPKG" || column.empty()) {
      return;
    }
    const std::string given = where.empty() ? "" : fmt::format("({}) AND ", where);
    opened_.layer->SetAttributeFilter(fmt::format("{}\"{}\" IS NULL", given, column).c_str());
    empty_ += static_cast<std::size_t>(std::max<GIntBig>(0, opened_.layer->GetFeatureCount(TRUE)));
    opened_.layer->SetAttributeFilter(where.empty() ? nullptr : where.c_str());
  }

  [[nodiscard]] bool is_near(const OGRGeometry& geometry) const {
    OGREnvelope extent;
    geometry.getEnvelope(&extent);
    return !filter_.IsInit() || filter_.Intersects(extent);
  }

  [[noreturn]] void refuse(const OGRFeature& feature, const char* why) const {
    throw input_.error(fmt::format("feature {}: {}; repair or remove it", feature.GetFID(), why));
  }

  void read_feature(OGRFeature& feature) {
    GeometryHandle geometry(feature.StealGeometry());
    if (geometry == nullptr || geometry->IsEmpty()) {
      ++empty_;
      return;
    }
    if (column_ && OGR_GT_IsSubClassOf(geometry->getGeometryType(), wkbMultiPoint)) {
      for (const OGRPoint* point : *geometry->toMultiPoint()) {  // each has a value of its own
        add(feature, GeometryHandle(point->clone()));
      }
      return;
    }
    add(feature, std::move(geometry));
  }

  void add(const OGRFeature& feature, GeometryHandle geometry) {
    if (!is_near(*geometry)) {
      return;
    }
    const double value =
        column_ ? value_in(*column_, feature, *geometry) : std::numeric_limits<double>::quiet_NaN();
    geometry->flattenTo2D();
    if (geometry->hasCurveGeometry()) {
      geometry.reset(geometry->getLinearGeometry());
    }
    geometry = cut_far_parts(feature, made_valid(feature, std::move(geometry)));
    if (geometry->IsEmpty()) {
      return;
    }
    try {
      Feature found;
      found.shape = project_shape(*geometry, *to_grid_, opened_.reference.IsGeographic() != 0);
      found.label = column_ ? "" : text_of(feature, label_, "name");
      found.value = value;
      found.own_setback = setback_of(feature);
      found.status = text_of(feature, status_, "status");
      result_.features.push_back(std::move(found));
    } catch (const std::domain_error& e) {
      refuse(feature, e.what());
    }
  }

  GeometryHandle made_valid(const OGRFeature& feature, GeometryHandle geometry) {
    OGREnvelope extent;
    geometry->getEnvelope(&extent);
    if (!std::isfinite(extent.MinX + extent.MaxX + extent.MinY + extent.MaxY)) {
      refuse(feature, "it has a coordinate that is not a number");
    }
    if (OGR_GT_IsSubClassOf(geometry->getGeometryType(), wkbPoint) || geometry->IsValid()) {
      return geometry;
    }
    GeometryHandle valid(geometry->MakeValid());
    if (valid == nullptr || valid->IsEmpty()) {
      refuse(feature, "its shape is broken beyond repair");
    }
    ++result_.repaired;
    warn(fmt::format("feature {} has an invalid shape and was repaired; look at it on the map",
                     feature.GetFID()));
    return valid;
  }

  /// A shape that spans a continent reaches to where no local projection does; only what lies
  /// around the box matters.
  GeometryHandle cut_far_parts(const OGRFeature& feature, GeometryHandle geometry) const {
    OGREnvelope extent;
    geometry->getEnvelope(&extent);
    if (!cut_.IsInit() || cut_.Contains(extent)) {
      return geometry;
    }
    const OGRPolygon window = rectangle(cut_);
    GeometryHandle part(geometry->Intersection(&window));
    if (part == nullptr) {
      refuse(feature, "it cannot be cut to the area");
    }
    return part;
  }

  /// The place of a column that the plan names; -1 where it names none.
  int column(const std::string& name, const char* key) const {
    if (name.empty()) {
      return -1;
    }
    const std::vector<std::string> names = field_names(*opened_.layer);
    const auto found = std::find(names.begin(), names.end(), name);
    if (found != names.end()) {
      return static_cast<int>(found - names.begin());
    }
    throw input_.error(fmt::format("has no column \"{}\" ({}.{}); it has {}", foreign_text(name),
                                   input_.key, key,
                                   foreign_text(fmt::format("{}", fmt::join(names, ", ")))));
  }

  std::string text_of(const OGRFeature& feature, int column, const char* what) {
    if (column < 0 || !feature.IsFieldSetAndNotNull(column)) {
      return "";
    }
    const std::string text = feature.GetFieldAsString(column);
    if (!is_utf8(text)) {
      warn(fmt::format("feature {} has a {} that is not UTF-8; what cannot be read became \"?\"",
                       feature.GetFID(), what));
    }
    return foreign_text(text);
  }

  std::optional<double> setback_of(const OGRFeature& feature) const {
    if (setback_ < 0 || !feature.IsFieldSetAndNotNull(setback_)) {
      return std::nullopt;
    }
    const OGRFieldType type = feature.GetFieldDefnRef(setback_)->GetType();
    const bool number = type == OFTInteger || type == OFTInteger64 || type == OFTReal;
    const double metres = number ? feature.GetFieldAsDouble(setback_) : -1.0;
    if (!(metres >= 0.0 && metres <= kMaxSetback_m)) {
      refuse(feature, "its setback is not a number of metres from 0 to 10000");
    }
    return metres;
  }

  const InputFile& input_;
  VectorLayer opened_;
  std::string own_;
  std::unique_ptr<Projector> to_grid_;
  OGREnvelope filter_;
  OGREnvelope cut_;
  int label_ = -1;
  std::optional<ValueColumn> column_;
  int setback_ = -1;
  int status_ = -1;
  std::size_t empty_ = 0;
  FeatureLayer result_;
};

}  // namespace

FeatureLayer read_feature_file(const FileRef& file, const std::string& where,
                               const std::string& key, const std::string& crs, const LonLatBox& box,
                               const FeatureColumns& columns, bool allow_ballpark) {
  InputFile input = find_input(file, key, true);
  input.allow_ballpark = allow_ballpark;
  return FeatureReader(input, crs, box, columns).read(where);
}

ValuedFeatures read_valued_features(const InputFile& input, const std::string& crs,
                                    const LonLatBox& box) {
  FeatureReader reader(input, crs, box, {});
  ValueColumn column = reader.take_values();
  return {reader.read(""), std::move(column)};
}

}  // namespace tidelot::geoio
