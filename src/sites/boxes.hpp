// SPDX-License-Identifier: Apache-2.0
// Boxes for trees of edges.
#pragma once

#include <boost/geometry/geometries/box.hpp>
#include <boost/geometry/geometries/point_xy.hpp>

#include "sites/site_box.hpp"

namespace tidelot {

using BoxPoint = boost::geometry::model::d2::point_xy<double>;
using Box = boost::geometry::model::box<BoxPoint>;

/// About two points, grown by so many metres to every side.
[[nodiscard]] Box box_of(XY a, XY b, double grown);
[[nodiscard]] Box box_of(const SiteBox& box);

}  // namespace tidelot
