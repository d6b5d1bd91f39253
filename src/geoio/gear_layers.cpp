// SPDX-License-Identifier: Apache-2.0
#include "gear_layers.hpp"

#include <algorithm>
#include <array>
#include <memory>
#include <string>
#include <vector>

#include "report/site/site_figures.hpp"

namespace tidelot::geoio {
namespace {

constexpr std::array kFields{"site", "name", "kind"};

struct GearFeature {
  std::array<std::string, kFields.size()> texts;  ///< as kFields
  std::unique_ptr<OGRGeometry> shape;
};

struct GearLayer {
  const char* name;
  OGRwkbGeometryType type;
  std::vector<GearFeature> features;
};

std::unique_ptr<OGRGeometry> point_of(LonLat at) {
  return std::make_unique<OGRPoint>(at.lon, at.lat);
}

std::unique_ptr<OGRGeometry> line_of(LonLat a, LonLat b) {
  auto line = std::make_unique<OGRLineString>();
  line->addPoint(a.lon, a.lat);
  line->addPoint(b.lon, b.lat);
  line->flattenTo2D();
  return line;
}

/// The corners run clockwise; an outer ring of a simple feature runs the other way.
std::unique_ptr<OGRGeometry> box_of(const Gear& gear) {
  OGRLinearRing ring;
  ring.addPoint(gear.box.front().at.lon, gear.box.front().at.lat);
  std::for_each(gear.box.rbegin(), gear.box.rend(),
                [&](const GearPoint& corner) { ring.addPoint(corner.at.lon, corner.at.lat); });
  ring.flattenTo2D();
  auto polygon = std::make_unique<OGRPolygon>();
  polygon->addRing(&ring);
  return polygon;
}

void add_lines(const Site& site, const std::string& name, GearLayer& lines, GearLayer& anchors) {
  for (std::size_t i = 0; i < site.gear.lines.size(); ++i) {
    const GearLine& line = site.gear.lines[i];
    lines.features.push_back({{site.name, page::line_name(name, i), "grown length of a longline"},
                              line_of(line.ends[0].at, line.ends[1].at)});
    for (std::size_t end = 0; end < line.anchors.size(); ++end) {
      anchors.features.push_back(
          {{site.name, page::anchor_name(name, i, end), "anchor"}, point_of(line.anchors[end].at)});
    }
  }
}

void add_markers(const Site& site, const std::string& name, GearLayer& markers) {
  for (std::size_t i = 0; i < site.gear.markers.size(); ++i) {
    const Marker& marker = site.gear.markers[i];
    const bool corner = marker.kind == Marker::Kind::corner;
    markers.features.push_back({{site.name, page::marker_name(name, i),
                                 corner ? "corner marker" : "marker between corners"},
                                point_of(marker.point.at)});
  }
}

std::vector<GearLayer> gear_layers(std::span<const Site> sites) {
  std::vector<GearLayer> all;
  all.push_back({"gear_box", wkbPolygon, {}});
  all.push_back({"lines", wkbLineString, {}});
  all.push_back({"anchors", wkbPoint, {}});
  all.push_back({"markers", wkbPoint, {}});
  for (const Site& site : sites) {
    const std::string name = page::plain_name(site);
    if (site.gear.box_length_m > 0.0 && site.gear.box_width_m > 0.0) {
      all[0].features.push_back({{site.name, name, "gear box"}, box_of(site.gear)});
    }
    add_lines(site, name, all[1], all[2]);
    add_markers(site, name, all[3]);
  }
  return all;
}

bool add(OGRLayer& layer, const GearFeature& one) {
  const FeatureHandle feature(OGRFeature::CreateFeature(layer.GetLayerDefn()));
  for (std::size_t i = 0; i < kFields.size(); ++i) {
    feature->SetField(static_cast<int>(i), one.texts[i].c_str());
  }
  return feature->SetGeometry(one.shape.get()) == OGRERR_NONE &&
         layer.CreateFeature(feature.get()) == OGRERR_NONE;
}

bool add(GDALDataset& file, const GearLayer& wanted) {
  OGRSpatialReference reference = make_reference("EPSG:4326", "sites.gpkg", Fault::output);
  OGRLayer* layer = file.CreateLayer(wanted.name, &reference, wanted.type, nullptr);
  if (layer == nullptr) {
    return false;
  }
  for (const char* field : kFields) {
    OGRFieldDefn definition(field, OFTString);
    if (layer->CreateField(&definition) != OGRERR_NONE) {
      return false;
    }
  }
  return std::all_of(wanted.features.begin(), wanted.features.end(),
                     [&](const GearFeature& one) { return add(*layer, one); }) &&
         layer->SyncToDisk() == OGRERR_NONE;
}

bool same(const OGRFeature& found, const GearFeature& wanted) {
  for (std::size_t i = 0; i < kFields.size(); ++i) {
    if (wanted.texts[i] != found.GetFieldAsString(static_cast<int>(i))) {
      return false;
    }
  }
  return found.GetGeometryRef() != nullptr && wanted.shape->Equals(found.GetGeometryRef());
}

bool same(OGRLayer* layer, const GearLayer& wanted) {
  return layer != nullptr &&
         layer->GetFeatureCount() == static_cast<GIntBig>(wanted.features.size()) &&
         std::all_of(wanted.features.begin(), wanted.features.end(), [&](const GearFeature& one) {
           const FeatureHandle feature(layer->GetNextFeature());
           return feature != nullptr && same(*feature, one);
         });
}

}  // namespace

bool add_gear_layers(GDALDataset& file, std::span<const Site> sites) {
  const std::vector<GearLayer> layers = gear_layers(sites);
  return std::all_of(layers.begin(), layers.end(),
                     [&](const GearLayer& layer) { return add(file, layer); });
}

bool same_gear_layers(GDALDataset& file, std::span<const Site> sites) {
  const std::vector<GearLayer> layers = gear_layers(sites);
  return std::all_of(layers.begin(), layers.end(), [&](const GearLayer& layer) {
    return same(file.GetLayerByName(layer.name), layer);
  });
}

}  // namespace tidelot::geoio
