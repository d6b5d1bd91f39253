// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "report/site/site_figures.hpp"
#include "report/tables/xml_text.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/report/report.hpp"

namespace tidelot {
namespace {

std::string point(std::string_view kind, LonLat place, const std::string& name,
                  const std::string& description) {
  return fmt::format(
      "<{0} lat=\"{1}\" lon=\"{2}\"><name>{3}</name>{4}</{0}>\n", kind, fixed(place.lat, 6),
      fixed(place.lon, 6), name,
      description.empty() ? "" : fmt::format("<desc>{}</desc>", xml_text(description)));
}

std::string corner_name(const std::string& site, std::size_t corner) {
  return fmt::format("{}C{}", site, corner + 1);
}

/// Anchors, and the markers between the corners: those at the corners are the corners.
std::string gear_points(const Site& site, const std::string& name) {
  std::string all;
  for (std::size_t i = 0; i < site.gear.lines.size(); ++i) {
    for (std::size_t end = 0; end < site.gear.lines[i].anchors.size(); ++end) {
      all += point("wpt", site.gear.lines[i].anchors[end].at, page::anchor_name(name, i, end),
                   fmt::format("Site {}: anchor of line {}", site.name, i + 1));
    }
  }
  for (std::size_t i = 0; i < site.gear.markers.size(); ++i) {
    if (site.gear.markers[i].kind == Marker::Kind::intermediate) {
      all += point("wpt", site.gear.markers[i].point.at, page::marker_name(name, i),
                   fmt::format("Site {}: marker on the boundary", site.name));
    }
  }
  return all;
}

std::string waypoints(const Site& site, const std::string& name) {
  std::string all = point("wpt", site.centre, name, fmt::format("Site {}: centre", site.name));
  for (std::size_t i = 0; i < site.corners.size(); ++i) {
    all += point("wpt", site.corners[i], corner_name(name, i),
                 fmt::format("Site {}: corner C{}", site.name, i + 1));
  }
  return all + gear_points(site, name);
}

/// The boundary, back to its first corner.
std::string route(const Site& site, const std::string& name) {
  std::string all = fmt::format("<rte><name>{}</name><desc>{}</desc>\n", name,
                                xml_text(fmt::format("Site {}: boundary", site.name)));
  for (std::size_t i = 0; i <= site.corners.size(); ++i) {
    const std::size_t corner = i % site.corners.size();
    all += point("rtept", site.corners[corner], corner_name(name, corner), "");
  }
  return all + "</rte>\n";
}

}  // namespace

std::string sites_gpx(std::span<const Site> sites, const Plan& plan) {
  std::string points;
  std::string routes;
  for (const Site& site : sites) {
    const std::string name = page::plain_name(site);
    points += waypoints(site, name);
    routes += route(site, name);
  }
  // The order of GPX 1.1: metadata, waypoints, routes.
  return fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<gpx xmlns=\"http://www.topografix.com/GPX/1/1\" version=\"1.1\" creator=\"tidelot\">\n"
      "<metadata><name>{}</name><desc>Planning use - not for navigation - not a "
      "survey. WGS 84.</desc></metadata>\n{}{}</gpx>\n",
      xml_text(plan.title), points, routes);
}

}  // namespace tidelot
