// SPDX-License-Identifier: Apache-2.0
// The positions of sites in the datum that the plan asks for, and in UTM.
#pragma once

#include <map>
#include <memory>
#include <string>

#include "run/area.hpp"
#include "tidelot/sites/positions.hpp"

namespace tidelot::run {

/// The EPSG code of the UTM zone of a place in NAD 83 (zones 1 to 23 and 59, 60, north), or in
/// WGS 84. Error(plan) where NAD 83 has none.
[[nodiscard]] std::string printed_utm(LonLat place, bool nad83);

class Printing {
 public:
  /// Error(plan), naming report.datum, where no operation is known that leads to NAD 83 there; area
  /// outlives it.
  Printing(const Plan& plan, const Area& area);
  /// Every site, those listed apart too.
  void print(SitesResult& sites, const Geodesy& geodesy);

 private:
  struct Zone {
    std::string name;
    std::unique_ptr<Projector> from_degrees;
  };
  void print(Site& site, const Geodesy& geodesy);
  Zone& zone_of(LonLat place);

  const Area& area_;
  bool nad83_;
  std::unique_ptr<Projector> shift_;  ///< none: WGS 84
  std::map<std::string, Zone> zones_;
};

}  // namespace tidelot::run
