// SPDX-License-Identifier: Apache-2.0
// Bytes as GeoJSON or WKT, through the shape that a rule closes, to setbacks and closed cells: what
// GDAL reads is a shape of finite vertices or refused, and setbacks and closed cells say of it what
// looking at every edge says. The first byte is the setback, the second the box's place.
#include <cpl_error.h>
#include <ogr_geometry.h>

#include <cmath>
#include <memory>
#include <stdexcept>
#include <string>

#include "criteria/scanline.hpp"
#include "geoio/vector_shape.hpp"
#include "promise.hpp"
#include "sites/setbacks.hpp"
#include "tidelot/criteria/closed_mask.hpp"

namespace {

using namespace tidelot;
using fuzz::promise;

constexpr double kFar = 3.0;    // degrees; a reader cuts shapes there
constexpr int kCells = 12;      // a side of the grid
constexpr double kNear = 1e-3;  // m, between two ways to say the same

/// Degrees to metres, bent a little, so that edges are halved.
class Bent final : public Projector {
 public:
  void forward(std::span<XY> points) override {
    for (XY& p : points) {
      p = {p.x * (1000.0 + p.y), p.y * 1000.0};
    }
  }
  void inverse(std::span<XY> points) override {
    for (XY& p : points) {
      p = {p.x / (1000.0 + p.y / 1000.0), p.y / 1000.0};
    }
  }
  [[nodiscard]] std::unique_ptr<Projector> clone() const override {
    return std::make_unique<Bent>();
  }
  [[nodiscard]] const std::string& operation() const override { return name_; }

 private:
  std::string name_ = "bent";
};

std::unique_ptr<OGRGeometry> geometry_of(const std::string& text) {
  OGRGeometry* read = nullptr;
  CPLPushErrorHandler(CPLQuietErrorHandler);
  if (text.starts_with('{')) {
    read = OGRGeometryFactory::createFromGeoJson(text.c_str());
  } else if (OGRGeometryFactory::createFromWkt(text.c_str(), nullptr, &read) != OGRERR_NONE) {
    read = nullptr;
  }
  CPLPopErrorHandler();
  return std::unique_ptr<OGRGeometry>(read);
}

/// As a reader leaves it: flat, without curves, within reach.
std::unique_ptr<OGRGeometry> plain(std::unique_ptr<OGRGeometry> geometry) {
  if (geometry == nullptr) {
    return nullptr;
  }
  geometry->flattenTo2D();
  if (geometry->hasCurveGeometry()) {
    geometry.reset(geometry->getLinearGeometry());
  }
  OGREnvelope extent;
  geometry->getEnvelope(&extent);
  const bool near =
      extent.MinX >= -kFar && extent.MaxX <= kFar && extent.MinY >= -kFar && extent.MaxY <= kFar;
  return near || geometry->IsEmpty() ? std::move(geometry) : nullptr;
}

void check_setbacks(const Feature& feature, const SiteBox& box) {
  double nearest = INFINITY;
  for_each_edge(feature.shape, [&](XY a, XY b) {
    promise(std::isfinite(a.x + a.y + b.x + b.y), "vertices are finite");
    nearest = std::min(nearest, nearest_points(box, a, b).distance_m);
  });
  const ClosedLayer layer{{}, {feature}, ""};
  const SetbackEdges edges({&layer, 1});
  const Setbacks setbacks(edges, {&layer, 1}, 1.0);
  const double missing = std::max(0.0, feature.setback_m - nearest);
  promise(std::abs(setbacks.shortfall(box, 1) - missing) < kNear,
          "a setback falls short by what the nearest edge says");
  promise(setbacks.broken(box, 1).empty() == setbacks.kept_by(box, 1),
          "a setback is kept or broken");
}

void check_cells(const Feature& feature) {
  const Grid grid{-600.0, 600.0, 100.0, kCells, kCells, "local"};
  std::vector<std::uint32_t> mask(grid.size());
  mark_closed(grid, {&feature, 1}, Standing::closed, 1.0, 8, mask);
  for (int row = 0; row < kCells; ++row) {
    for (int col = 0; col < kCells; ++col) {
      const XY centre = grid.centre(col, row);
      double nearest = INFINITY;
      for_each_edge(feature.shape, [&](XY a, XY b) {
        nearest = std::min(nearest, distance_to_segment(centre, a, b));
      });
      if (nearest < feature.setback_m - kNear) {
        promise((mask[grid.index(col, row)] & 1U << 8) != 0, "a cell within the setback is closed");
      }
      if (nearest > feature.setback_m + 100.0 && mask[grid.index(col, row)] != 0) {
        bool inside = false;
        for (const Polygon& polygon : feature.shape.polygons) {
          inside = inside || contains(polygon, centre);
        }
        promise(inside, "a cell far from every edge is closed only inside a polygon");
      }
    }
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t count) {
  if (count < 2) {
    return 0;
  }
  const auto geometry = plain(geometry_of(std::string(fuzz::text_of(bytes + 2, count - 2))));
  if (geometry == nullptr) {
    return 0;
  }
  Feature feature;
  feature.setback_m = bytes[0] * 4.0;
  Bent projector;
  try {
    feature.shape = geoio::project_shape(*geometry, projector, true);
  } catch (const std::domain_error& refusal) {
    fuzz::promise_one_line(refusal.what());
    return 0;
  }
  promise(feature.shape.empty() || !geometry->IsEmpty(), "nothing comes of an empty geometry");
  const double at = (bytes[1] % 16 - 8) * 75.0;
  check_setbacks(feature, SiteBox({at, -at / 2}, bytes[1], {200.0, 80.0}));
  check_cells(feature);
  return 0;
}
