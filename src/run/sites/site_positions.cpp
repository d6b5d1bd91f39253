// SPDX-License-Identifier: Apache-2.0
#include "run/sites/site_positions.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "tidelot/core/error.hpp"

namespace tidelot::run {
namespace {

constexpr const char* kWgs84 = "EPSG:4326";
constexpr const char* kNad83 = "EPSG:4269";
constexpr double kUtmSouth = -80.0;
constexpr double kUtmNorth = 84.0;

LonLatBox box_of(const std::array<LonLat, 4>& corners) {
  LonLatBox box{corners[0].lon, corners[0].lat, corners[0].lon, corners[0].lat};
  for (const LonLat corner : corners) {
    box = {std::min(box.west, corner.lon), std::min(box.south, corner.lat),
           std::max(box.east, corner.lon), std::max(box.north, corner.lat)};
  }
  return box;
}

[[noreturn]] void refuse_nad83() {
  throw Error(Fault::plan,
              "report.datum: no operation of known accuracy leads from WGS 84 to NAD 83 in this "
              "area; write \"WGS 84\"");
}

/// PROJ is asked for the operation of this very area: without one it knows only a guess.
std::unique_ptr<Projector> shift_to_nad83(const Area& area) {
  try {
    return area.opener->projector(kWgs84, kNad83, "report.datum", box_of(area.corners));
  } catch (const Error&) {
    refuse_nad83();
  }
}

}  // namespace

std::string printed_utm(LonLat place, bool nad83) {
  const std::string wgs84 = utm_crs(place);
  if (!nad83) {
    return wgs84;
  }
  const int zone = std::stoi(wgs84.substr(wgs84.size() - 2));
  constexpr int kLastOfFirst = 23;  // 26901 to 26923
  constexpr int kFirstOfLast = 59;  // 3372, 3373: west of the date line
  if (place.lat < 0.0 || (zone > kLastOfFirst && zone < kFirstOfLast)) {
    refuse_nad83();
  }
  return fmt::format("EPSG:{}", zone <= kLastOfFirst ? 26900 + zone : 3372 + zone - kFirstOfLast);
}

Printing::Printing(const Plan& plan, const Area& area) : area_(area), nad83_(plan.report.nad83) {
  if (nad83_) {
    shift_ = shift_to_nad83(area);
    static_cast<void>(zone_of(area.middle));
  }
}

void Printing::print(SitesResult& sites, const Geodesy& geodesy) {
  for (std::vector<Site>* list : {&sites.ranked, &sites.apart}) {
    for (Site& site : *list) {
      print(site, geodesy);
    }
  }
}

void Printing::print(Site& site, const Geodesy& geodesy) {
  if (shift_) {
    print_position(site, {"NAD 83", shift_->operation(), shift_.get()}, geodesy);
  }
  if (site.centre.lat >= kUtmSouth && site.centre.lat <= kUtmNorth) {
    Zone& zone = zone_of(site.centre);
    add_utm(site.printed, zone.name, *zone.from_degrees);
  }
}

Printing::Zone& Printing::zone_of(LonLat place) {
  const std::string crs = printed_utm(place, nad83_);
  Zone& zone = zones_[crs];
  if (!zone.from_degrees) {
    zone.name = area_.opener->crs_name(crs);
    zone.from_degrees = area_.opener->projector(nad83_ ? kNad83 : kWgs84, crs, "report.datum");
  }
  return zone;
}

}  // namespace tidelot::run
