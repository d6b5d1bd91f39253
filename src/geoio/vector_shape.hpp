// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <ogr_geometry.h>

#include "tidelot/core/geometry.hpp"
#include "tidelot/layers/opener.hpp"

namespace tidelot::geoio {

/// A flat geometry without curves in another system. Edges are halved until the projected middle of
/// a piece lies within 0.05 m of the middle of its projected ends (and pieces are no longer than
/// half a degree or 50 km), because a straight edge of one system is bent in another. Throws
/// std::domain_error where a vertex cannot be projected.
[[nodiscard]] Shape project_shape(const OGRGeometry& geometry, Projector& projector,
                                  bool geographic);

}  // namespace tidelot::geoio
