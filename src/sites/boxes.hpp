// SPDX-License-Identifier: Apache-2.0
// Boxes for trees of edges.
#pragma once

#include <boost/geometry/geometries/box.hpp>
#include <boost/geometry/geometries/point_xy.hpp>

#include "sites/site_box.hpp"

namespace tidelot {

using BoxPoint = boost::geometry::model::d2::point_xy<double>;
using Box = boost::geometry::model::box<BoxPoint>;

/// About two points.
[[nodiscard]] Box box_of(XY a, XY b);
[[nodiscard]] Box box_of(const SiteBox& box);
/// Larger by so many metres to every side.
[[nodiscard]] Box grown(const Box& box, double by_m);

}  // namespace tidelot
