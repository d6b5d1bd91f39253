// SPDX-License-Identifier: Apache-2.0
#include "tidelot/sites/positions.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace tidelot {
namespace {

constexpr double kSquareMetresPerHectare = 10'000.0;

double to_decimals(double value, double scale) { return std::round(value * scale) / scale; }

XY to_the_centimetre(XY p) { return {to_decimals(p.x, 100.0), to_decimals(p.y, 100.0)}; }

std::array<XY, 5> five_points(const std::array<LonLat, 4>& corners, LonLat centre) {
  std::array<XY, 5> points{};
  std::transform(corners.begin(), corners.end(), points.begin(), [](LonLat p) {
    return XY{p.lon, p.lat};
  });
  points[4] = {centre.lon, centre.lat};
  return points;
}

void add_sides(Printed& printed, const Geodesy& geodesy) {
  for (std::size_t i = 0; i < printed.corners.size(); ++i) {
    const LonLat from = printed.corners[i];
    const LonLat to = printed.corners[(i + 1) % printed.corners.size()];
    printed.sides[i] = {geodesy.distance_m(from, to), geodesy.azimuth_deg(from, to)};
  }
}

}  // namespace

LonLat printed_position(LonLat place) {
  constexpr double kSixDecimals = 1e6;
  return {to_decimals(place.lon, kSixDecimals), to_decimals(place.lat, kSixDecimals)};
}

void print_position(Site& site, const PrintSystem& system, const Geodesy& geodesy) {
  std::array<XY, 5> points = five_points(site.corners, site.centre);
  if (system.from_wgs84 != nullptr) {
    system.from_wgs84->forward(points);
  }
  Printed& printed = site.printed;
  printed.datum = system.datum;
  printed.operation = system.operation;
  std::transform(points.begin(), points.end() - 1, printed.corners.begin(), [](XY p) {
    return printed_position({p.x, p.y});
  });
  printed.centre = printed_position({points[4].x, points[4].y});
  add_sides(printed, geodesy);
  printed.area_ha = geodesy.area_m2(printed.corners) / kSquareMetresPerHectare;
}

void add_utm(Printed& printed, std::string zone, Projector& to_utm) {
  std::array<XY, 5> points = five_points(printed.corners, printed.centre);
  to_utm.forward(points);
  printed.utm_zone = std::move(zone);
  std::transform(points.begin(), points.end() - 1, printed.utm_corners.begin(), to_the_centimetre);
  printed.utm_centre = to_the_centimetre(points[4]);
}

Direction direction_to(LonLat place, LonLat centre, const Geodesy& geodesy) {
  return {geodesy.distance_m(centre, place),
          centre == place ? 0.0 : geodesy.azimuth_deg(centre, place)};
}

}  // namespace tidelot
