// SPDX-License-Identifier: Apache-2.0
#include "vector_shape.hpp"

#include <cmath>
#include <stdexcept>

namespace tidelot::geoio {
namespace {

constexpr double kStray = 0.05;  // m in the target
constexpr int kMaxHalvings = 24;

class ShapeProjector {
 public:
  ShapeProjector(Projector& projector, bool geographic)
      : projector_(projector), longest_(geographic ? 0.5 : 50000.0) {}

  /// What is empty may lack a ring or a coordinate altogether.
  void add(const OGRGeometry& geometry, Shape& shape) {
    if (geometry.IsEmpty()) {
      return;
    }
    switch (wkbFlatten(geometry.getGeometryType())) {
      case wkbPoint:
        shape.points.push_back(projected(point(*geometry.toPoint())));
        break;
      case wkbLineString:
        shape.lines.push_back(path(*geometry.toLineString()));
        break;
      case wkbPolygon:
        shape.polygons.push_back(polygon(*geometry.toPolygon()));
        break;
      case wkbMultiPoint:
      case wkbMultiLineString:
      case wkbMultiPolygon:
      case wkbGeometryCollection:
        for (const OGRGeometry* part : *geometry.toGeometryCollection()) {
          add(*part, shape);
        }
        break;
      default:
        throw std::domain_error("its geometry is of a kind that is not read");
    }
  }

 private:
  static XY point(const OGRPoint& p) { return {p.getX(), p.getY()}; }

  XY projected(XY p) {
    if (!std::isfinite(p.x) || !std::isfinite(p.y)) {
      throw std::domain_error("it has a coordinate that is not a number");
    }
    projector_.forward({&p, 1});
    if (!std::isfinite(p.x)) {
      throw std::domain_error("it reaches to where the run's reference system does not");
    }
    return p;
  }

  Polygon polygon(const OGRPolygon& from) {
    Polygon to;
    to.outer = ring(*from.getExteriorRing());
    for (int i = 0; i < from.getNumInteriorRings(); ++i) {
      to.holes.push_back(ring(*from.getInteriorRing(i)));
    }
    return to;
  }

  /// Not every format closes its rings.
  Path ring(const OGRLinearRing& from) {
    OGRLinearRing whole(from);
    whole.closeRings();
    return path(whole);
  }

  Path path(const OGRLineString& line) {
    Path result;
    OGRPoint vertex;
    XY before{};
    for (int i = 0; i < line.getNumPoints(); ++i) {
      line.getPoint(i, &vertex);
      const XY here = point(vertex);
      const XY there = projected(here);
      if (i > 0) {
        between(before, here, result.back(), there, kMaxHalvings, result);
      }
      result.push_back(there);
      before = here;
    }
    return result;
  }

  /// Adds what has to stand between two vertices a and b, whose projections are pa and pb.
  void between(XY a, XY b, XY pa, XY pb, int halvings, Path& out) {
    const XY middle{(a.x + b.x) / 2, (a.y + b.y) / 2};
    const XY there = projected(middle);
    const double stray = std::hypot(there.x - (pa.x + pb.x) / 2, there.y - (pa.y + pb.y) / 2);
    const bool is_long = std::hypot(b.x - a.x, b.y - a.y) > longest_;
    if (halvings == 0 || (stray < kStray && !is_long)) {
      return;
    }
    between(a, middle, pa, there, halvings - 1, out);
    out.push_back(there);
    between(middle, b, there, pb, halvings - 1, out);
  }

  Projector& projector_;
  double longest_;
};

}  // namespace

Shape project_shape(const OGRGeometry& geometry, Projector& projector, bool geographic) {
  Shape shape;
  ShapeProjector(projector, geographic).add(geometry, shape);
  return shape;
}

}  // namespace tidelot::geoio
