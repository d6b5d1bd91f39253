// SPDX-License-Identifier: Apache-2.0
#include <cpl_conv.h>
#include <fmt/format.h>

#include <algorithm>

#include "gear_layers.hpp"
#include "map_writer_parts.hpp"
#include "output_file.hpp"
#include "site_fields.hpp"
#include "spatial_index.hpp"

namespace tidelot::geoio {
namespace {

constexpr const char* kMemoryName = "sites.gpkg";
constexpr const char* kLayer = "sites";
constexpr const char* kReference = "EPSG:4326";
/// The time stamps inside: the same bytes must come out of every run.
constexpr const char* kFixedTime = "2000-01-01T00:00:00.000Z";

OGRSpatialReference wgs84() { return make_reference(kReference, "sites.gpkg", Fault::output); }

/// The corners run clockwise; an outer ring of a simple feature runs the other way.
OGRPolygon polygon_of(const Site& site) {
  OGRLinearRing ring;
  ring.addPoint(site.corners.front().lon, site.corners.front().lat);
  std::for_each(site.corners.rbegin(), site.corners.rend(),
                [&](LonLat corner) { ring.addPoint(corner.lon, corner.lat); });
  ring.flattenTo2D();
  OGRPolygon polygon;
  polygon.addRing(&ring);
  return polygon;
}

/// Sets a field as its value's type asks.
struct SetField {
  OGRFeature& feature;
  int index;
  void operator()(std::monostate) const { feature.SetFieldNull(index); }
  void operator()(std::int64_t value) const { feature.SetField(index, GIntBig{value}); }
  void operator()(double value) const { feature.SetField(index, value); }
  void operator()(const std::string& value) const { feature.SetField(index, value.c_str()); }
};

/// Is a field of the file what was asked for?
struct SameField {
  const OGRFeature& feature;
  int index;
  bool operator()(std::monostate) const { return feature.IsFieldNull(index); }
  bool operator()(std::int64_t value) const {
    return feature.IsFieldSetAndNotNull(index) && feature.GetFieldAsInteger64(index) == value;
  }
  bool operator()(double value) const {
    return feature.IsFieldSetAndNotNull(index) && feature.GetFieldAsDouble(index) == value;
  }
  bool operator()(const std::string& value) const {
    return feature.IsFieldSetAndNotNull(index) && value == feature.GetFieldAsString(index);
  }
};

bool add_fields(OGRLayer& layer, const Plan& plan) {
  const auto fields = site_fields({}, plan);
  return std::all_of(fields.begin(), fields.end(), [&](const SiteField& field) {
    OGRFieldDefn definition(field.name, field.type);
    return layer.CreateField(&definition) == OGRERR_NONE;
  });
}

bool add_site(OGRLayer& layer, const Site& site, const Plan& plan) {
  const FeatureHandle feature(OGRFeature::CreateFeature(layer.GetLayerDefn()));
  int index = 0;
  for (const SiteField& field : site_fields(site, plan)) {
    std::visit(SetField{*feature, index++}, field.value);
  }
  const OGRPolygon polygon = polygon_of(site);
  return feature->SetGeometry(&polygon) == OGRERR_NONE &&
         layer.CreateFeature(feature.get()) == OGRERR_NONE;
}

OGRLayer* add_layer(GDALDataset& file, const Plan& plan) {
  CPLStringList options;
  options.SetNameValue("IDENTIFIER", kLayer);
  options.SetNameValue("DESCRIPTION", plan.title.c_str());
  OGRSpatialReference reference = wgs84();
  return file.CreateLayer(kLayer, &reference, wkbPolygon, options.List());
}

bool fill(GDALDataset& file, std::span<const Site> sites, const Plan& plan) {
  OGRLayer* layer = add_layer(file, plan);
  return layer != nullptr && add_fields(*layer, plan) &&
         std::all_of(sites.begin(), sites.end(),
                     [&](const Site& site) { return add_site(*layer, site, plan); }) &&
         layer->SyncToDisk() == OGRERR_NONE && add_gear_layers(file, sites);
}

/// The file is complete, and its last errors are known, only once it is closed again.
bool make_file(const std::string& memory_path, std::span<const Site> sites, const Plan& plan) {
  const CPLConfigOptionSetter fixed_time("OGR_CURRENT_DATE", kFixedTime, false);
  const DatasetHandle file(
      driver("GPKG").Create(memory_path.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
  return file != nullptr && fill(*file, sites, plan);
}

void build(const std::filesystem::path& path, const std::string& memory_path,
           std::span<const Site> sites, const Plan& plan) {
  const Failures failures;
  if (!make_file(memory_path, sites, plan) || failures.any()) {
    throw output_error(path, "the GeoPackage could not be made", failures.text());
  }
}

bool same_site(const OGRFeature& feature, const Site& site, const Plan& plan) {
  int index = 0;
  for (const SiteField& field : site_fields(site, plan)) {
    if (!std::visit(SameField{feature, index++}, field.value)) {
      return false;
    }
  }
  const OGRPolygon polygon = polygon_of(site);
  return feature.GetGeometryRef() != nullptr && polygon.Equals(feature.GetGeometryRef());
}

bool same_fields(OGRLayer& layer, const Plan& plan) {
  const auto fields = site_fields({}, plan);
  OGRFeatureDefn* found = layer.GetLayerDefn();
  int index = 0;
  return found->GetFieldCount() == static_cast<int>(fields.size()) &&
         std::all_of(fields.begin(), fields.end(), [&](const SiteField& field) {
           const OGRFieldDefn* definition = found->GetFieldDefn(index++);
           return definition->GetType() == field.type &&
                  std::string_view(definition->GetNameRef()) == field.name;
         });
}

bool same_reference(OGRLayer& layer) {
  const OGRSpatialReference asked = wgs84();
  return layer.GetSpatialRef() != nullptr &&
         with_traditional_axes(*layer.GetSpatialRef()).IsSame(&asked) != FALSE;
}

bool same_layer(OGRLayer& layer, std::span<const Site> sites, const Plan& plan) {
  if (!same_fields(layer, plan) || !same_reference(layer) ||
      layer.GetFeatureCount() != static_cast<GIntBig>(sites.size())) {
    return false;
  }
  return std::all_of(sites.begin(), sites.end(), [&](const Site& site) {
    const FeatureHandle feature(layer.GetNextFeature());
    return feature != nullptr && same_site(*feature, site, plan);
  });
}

void check(const std::filesystem::path& path, std::span<const Site> sites, const Plan& plan) {
  const Failures failures;
  const char* const drivers[] = {"GPKG", nullptr};
  const DatasetHandle file(
      GDALDataset::Open(path.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY, drivers));
  OGRLayer* layer = file != nullptr ? file->GetLayerByName(kLayer) : nullptr;
  if (layer == nullptr || !same_layer(*layer, sites, plan) || !same_gear_layers(*file, sites) ||
      !has_whole_indices(*file) || failures.any()) {
    throw output_error(path, "the GeoPackage reads back differently from what was written",
                       failures.any() ? failures.text() : "");
  }
}

}  // namespace

void write_sites_geopackage(const std::filesystem::path& path, std::span<const Site> sites,
                            const Plan& plan) {
  const MemoryFolder folder;
  build(path, folder.path(kMemoryName), sites, plan);
  NewFile file(path, folder.bytes(kMemoryName));
  check(path, sites, plan);
  file.keep();
}

}  // namespace tidelot::geoio
