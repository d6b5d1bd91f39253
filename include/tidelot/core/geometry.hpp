// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "tidelot/core/grid.hpp"

namespace tidelot {

/// Vertices of a ring or a line, in the metres of the grid's system. Rings are closed (first vertex
/// repeated at the end); their direction carries no meaning.
using Path = std::vector<XY>;

/// One polygon: an outer ring and its holes.
struct Polygon {
  Path outer;
  std::vector<Path> holes;
};

/// The geometry of one feature. Kinds may be mixed, as in a geometry collection.
struct Shape {
  std::vector<Polygon> polygons;
  std::vector<Path> lines;
  std::vector<XY> points;
  [[nodiscard]] bool empty() const { return polygons.empty() && lines.empty() && points.empty(); }
};

/// Smallest distance from a point to a segment, m.
[[nodiscard]] double distance_to_segment(XY p, XY a, XY b);

/// Is the point inside the polygon, by the even-odd rule over the outer ring and its holes? A point
/// on an edge may be called either; callers that care also ask for the distance.
[[nodiscard]] bool contains(const Polygon& polygon, XY p);

}  // namespace tidelot
