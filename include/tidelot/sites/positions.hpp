// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "tidelot/layers/opener.hpp"
#include "tidelot/sites/geodesy.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot {

/// A position with the six decimals of a degree that are printed: 0.11 m of latitude.
[[nodiscard]] LonLat printed_position(LonLat place);

/// The system that positions are printed in.
struct PrintSystem {
  std::string datum = "WGS 84";
  std::string operation;            ///< for people; "": none is needed
  Projector* from_wgs84 = nullptr;  ///< null: the system is WGS 84
};

/// Corners and centre in the system, rounded, with the sides and the area that follow from them:
/// whoever computes them again from the printed corners gets the same. UTM is not touched.
/// On the ellipsoid of WGS 84; that of NAD 83 differs from it by 0.1 mm in the minor axis.
void print_position(Site& site, const PrintSystem& system, const Geodesy& geodesy);

/// The printed corners and centre in a UTM zone, rounded to the centimetre. to_utm: from degrees of
/// the printed datum.
void add_utm(Printed& printed, std::string zone, Projector& to_utm);

/// Distance and bearing of a place from a site's centre; the bearing is 0 at the centre itself.
[[nodiscard]] Direction direction_to(LonLat place, LonLat centre, const Geodesy& geodesy);

}  // namespace tidelot
