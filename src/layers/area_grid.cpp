// SPDX-License-Identifier: Apache-2.0
#include "area_grid.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "tidelot/core/error.hpp"
#include "tidelot/layers/layer_set.hpp"

namespace tidelot {
namespace {

constexpr int kEdgePoints = 33;
constexpr std::size_t kMaxCells = 300'000'000;
constexpr double kWidest = 20.0;  // degrees; one projected system does not serve more
constexpr double kMetresPerDegree = 111000.0;

/// Points along the edges of a box.
std::vector<XY> edge(double x0, double y0, double x1, double y1) {
  std::vector<XY> points;
  for (int i = 0; i < kEdgePoints; ++i) {
    const double t = static_cast<double>(i) / (kEdgePoints - 1);
    const double x = x0 + t * (x1 - x0);
    const double y = y0 + t * (y1 - y0);
    points.insert(points.end(), {{x, y0}, {x, y1}, {x0, y}, {x1, y}});
  }
  return points;
}

struct Extent {
  double west = std::numeric_limits<double>::infinity();
  double south = std::numeric_limits<double>::infinity();
  double east = -std::numeric_limits<double>::infinity();
  double north = -std::numeric_limits<double>::infinity();
  void add(XY p) {
    west = std::min(west, p.x);
    east = std::max(east, p.x);
    south = std::min(south, p.y);
    north = std::max(north, p.y);
  }
};

Extent extent_of(const std::vector<XY>& points) {
  Extent extent;
  for (const XY& p : points) {
    if (!std::isfinite(p.x) || !std::isfinite(p.y)) {
      throw Error(Fault::plan,
                  "area.crs: the area cannot be projected into this system; use \"auto\" or a "
                  "system made for the place");
    }
    extent.add(p);
  }
  return extent;
}

void check_width(const LonLatBox& box) {
  if (!(box.east - box.west <= kWidest) || !(box.north - box.south <= kWidest)) {
    throw Error(
        Fault::plan,
        fmt::format("area.bounds: the area is {:.1f} by {:.1f} degrees, more than the {} that "
                    "one grid serves; give west, south, east, north of one bay",
                    box.east - box.west, box.north - box.south, kWidest));
  }
}

/// A system that does not serve the place is the plan's fault, not a file's.
std::unique_ptr<Projector> projector_to(const std::string& crs, const LonLatBox& bounds,
                                        Opener& opener) {
  try {
    return opener.projector("EPSG:4326", crs, "area.crs", bounds);
  } catch (const Error& e) {
    throw Error(Fault::plan, e.what());
  }
}

}  // namespace

LonLatBox bounds_of(const Plan& plan, Opener& opener) {
  const AreaPlan& area = plan.area;
  if (area.has_bounds || !area.outline) {
    return {area.west, area.south, area.east, area.north};
  }
  const FeatureLayer outline =
      opener.read_features(*area.outline, "", "area.outline", "EPSG:4326", LonLatBox{});
  Extent extent;
  for (const Feature& feature : outline.features) {
    for (const Polygon& polygon : feature.shape.polygons) {
      std::for_each(polygon.outer.begin(), polygon.outer.end(), [&](XY p) { extent.add(p); });
    }
  }
  if (!(extent.west < extent.east)) {
    throw Error(Fault::input,
                fmt::format("area.outline: {}: holds no polygon", area.outline->written));
  }
  return {extent.west, extent.south, extent.east, extent.north};
}

Grid grid_over(const AreaPlan& area, const LonLatBox& bounds, Opener& opener) {
  check_width(bounds);
  const LonLat middle{(bounds.west + bounds.east) / 2, (bounds.south + bounds.north) / 2};
  const std::string crs = area.crs == "auto" ? utm_crs(middle) : opener.metric_crs(area.crs);
  auto points = edge(bounds.west, bounds.south, bounds.east, bounds.north);
  projector_to(crs, bounds, opener)->forward(points);
  const Extent extent = extent_of(points);
  return covering_grid({extent.west, extent.south}, {extent.east, extent.north}, area.cell_m, crs,
                       kMaxCells);
}

LonLatBox degrees_around(const Grid& grid, Projector& grid_to_degrees, double metres) {
  auto points = edge(grid.west, grid.south(), grid.east(), grid.north);
  grid_to_degrees.forward(points);
  const Extent box = extent_of(points);
  const double lat = metres / kMetresPerDegree;
  const double highest = std::max(std::abs(box.south), std::abs(box.north));
  const double lon = lat / std::max(0.05, std::cos(highest * 3.14159265358979 / 180.0));
  return {box.west - lon, box.south - lat, box.east + lon, box.north + lat};
}

Grid grid_of(const Plan& plan, Opener& opener) {
  return grid_over(plan.area, bounds_of(plan, opener), opener);
}

}  // namespace tidelot
