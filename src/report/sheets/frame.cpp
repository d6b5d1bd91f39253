// SPDX-License-Identifier: Apache-2.0
#include "report/sheets/frame.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/units.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<double, 9> kRound{1, 1.5, 2, 2.5, 3, 4, 5, 6, 8};

/// The largest of 1, 2, 5 times a power of ten that is not above a length.
double round_length(double most) {
  const double power = std::pow(10.0, std::floor(std::log10(most)));
  return most >= 5.0 * power ? 5.0 * power : most >= 2.0 * power ? 2.0 * power : power;
}

/// Four fields in turn full and hollow, 0 and the length at the ends.
std::string bar(Spot at, double length_mm, std::string_view most) {
  std::string all;
  for (int i = 0; i < 4; ++i) {
    all += box({at.x + i * length_mm / 4, at.y}, length_mm / 4, 1.2, {0.2, ""},
               i % 2 == 0 ? "#000" : "#fff");
  }
  return all + words({at.x, at.y - 0.7}, "0", 2.3, Anchor::middle) +
         words({at.x + length_mm, at.y - 0.7}, most, 2.3, Anchor::middle);
}

/// Minutes between two ticks: the finest step of which each takes so much paper or more.
double tick_minutes(double span_degrees, double paper_mm, double least_mm) {
  constexpr std::array<double, 16> kMinutes{0.01, 0.02, 0.05, 0.1,  0.2,  0.5,   1.0,   2.0,
                                            5.0,  10.0, 15.0, 30.0, 60.0, 120.0, 300.0, 600.0};
  const double wanted = span_degrees * 60.0 / paper_mm * least_mm;
  const auto found =
      std::find_if(kMinutes.begin(), kMinutes.end(), [&](double each) { return each >= wanted; });
  return found == kMinutes.end() ? kMinutes.back() : *found;
}

/// Where a longitude crosses a line of the grid between two corners of known position, 0..1.
double share(double value, double from, double to) { return (value - from) / (to - from); }

/// Positions between the grid's corners, interpolated: a straight line on the map is nearly one.
class Degrees {
 public:
  explicit Degrees(const ReportData& data) : data_(data) {}
  [[nodiscard]] LonLat at(XY p) const {
    const Grid& grid = *data_.grid;
    const double u = share(p.x, grid.west, grid.east());
    const double v = share(p.y, grid.north, grid.south());
    const auto& [nw, ne, se, sw] = data_.grid_corners;
    const auto mix = [&](double a, double b, double c, double d) {
      return (a * (1 - u) + b * u) * (1 - v) + (d * (1 - u) + c * u) * v;
    };
    return {mix(nw.lon, ne.lon, se.lon, sw.lon), mix(nw.lat, ne.lat, se.lat, sw.lat)};
  }

 private:
  const ReportData& data_;
};

/// Whole multiples of a step inside from..to (either way round).
std::vector<double> multiples(double from, double to, double step) {
  std::vector<double> all;
  const double low = std::min(from, to);
  const double high = std::max(from, to);
  for (double k = std::ceil(low / step); k * step <= high; ++k) {
    all.push_back(k * step);
  }
  return all;
}

int tick_decimals(double minutes) { return minutes < 0.1 ? 2 : minutes < 1.0 ? 1 : 0; }

std::string lon_ticks(const Frame& frame, const Degrees& degrees) {
  const Extent& e = frame.extent;
  const LonLat nw = degrees.at({e.west, e.north});
  const LonLat ne = degrees.at({e.east, e.north});
  const double step = tick_minutes(ne.lon - nw.lon, frame.width, 26.0);
  std::string all;
  for (const double minutes : multiples(nw.lon * 60.0, ne.lon * 60.0, step)) {
    const double x = share(minutes / 60.0, nw.lon, ne.lon) * frame.width;
    if (x < 12.0 || x > frame.width - 12.0) {
      continue;
    }
    all += stroke({x, 0.0}, {x, 2.0}, {0.2, ""}) +
           words({x + 0.6, 2.9},
                 page::decimal_minutes(minutes / 60.0, page::label("words.east_west"),
                                       tick_decimals(step)),
                 2.1);
  }
  return all;
}

std::string lat_ticks(const Frame& frame, const Degrees& degrees) {
  const Extent& e = frame.extent;
  const LonLat nw = degrees.at({e.west, e.north});
  const LonLat sw = degrees.at({e.west, e.south});
  const double step = tick_minutes(nw.lat - sw.lat, frame.height, 16.0);
  std::string all;
  for (const double minutes : multiples(sw.lat * 60.0, nw.lat * 60.0, step)) {
    const double y = share(minutes / 60.0, nw.lat, sw.lat) * frame.height;
    if (y < 8.0 || y > frame.height - 8.0) {
      continue;
    }
    all += stroke({0.0, y}, {2.0, y}, {0.2, ""}) +
           words({0.6, y - 0.7},
                 page::decimal_minutes(minutes / 60.0, page::label("words.north_south"),
                                       tick_decimals(step)),
                 2.1);
  }
  return all;
}

Frame at_scale(const Extent& extent, double denominator, double grid_scale) {
  Frame frame;
  frame.extent = extent;
  frame.denominator = denominator;
  frame.mm_per_m = 1000.0 / (denominator * grid_scale);
  frame.width = (extent.east - extent.west) * frame.mm_per_m;
  frame.height = (extent.north - extent.south) * frame.mm_per_m;
  return frame;
}

/// Widens low..high to a length about its middle, inside from..to where that is long enough.
void widen(double& low, double& high, double length, double from, double to) {
  const double wanted = std::min(length, std::max(to - from, high - low));
  const double middle = (low + high) / 2;
  low = middle - wanted / 2;
  high = middle + wanted / 2;
  const double shift = std::max(0.0, from - low) - std::max(0.0, high - to);
  low += shift;
  high += shift;
}

}  // namespace

double round_scale(double ground_m, double paper_mm) {
  const double least = ground_m * 1000.0 / paper_mm;
  for (double power = std::pow(10.0, std::floor(std::log10(least)));; power *= 10.0) {
    for (const double each : kRound) {
      if (each * power >= least * (1.0 - 1e-12)) {
        return each * power;
      }
    }
  }
}

std::string scale_words(double denominator) {
  std::string digits = page::count(static_cast<std::size_t>(std::llround(denominator)));
  for (std::size_t comma = digits.find(','); comma != std::string::npos; comma = digits.find(',')) {
    digits.replace(comma, 1, " ");
  }
  return "1 : " + digits;
}

Frame frame_of(const Extent& extent, double grid_scale, double width, double height) {
  const double across = (extent.east - extent.west) / grid_scale;
  const double down = (extent.north - extent.south) / grid_scale;
  return at_scale(extent, std::max(round_scale(across, width), round_scale(down, height)),
                  grid_scale);
}

Frame filled_frame(const Extent& extent, const Extent& within, double grid_scale, double width,
                   double height) {
  const Frame tight = frame_of(extent, grid_scale, width, height);
  Extent wide = extent;
  widen(wide.west, wide.east, width / tight.mm_per_m, within.west, within.east);
  widen(wide.south, wide.north, height / tight.mm_per_m, within.south, within.north);
  return at_scale(wide, tight.denominator, grid_scale);
}

Extent extent_of(const Grid& grid) { return {grid.west, grid.south(), grid.east(), grid.north}; }

Extent around(const Site& site, double more) {
  Extent e{site.corners_xy[0].x, site.corners_xy[0].y, site.corners_xy[0].x, site.corners_xy[0].y};
  for (const XY& corner : site.corners_xy) {
    e = {std::min(e.west, corner.x), std::min(e.south, corner.y), std::max(e.east, corner.x),
         std::max(e.north, corner.y)};
  }
  return {e.west - more, e.south - more, e.east + more, e.north + more};
}

std::string scale_bar(Spot at, double denominator) {
  const double mm_per_m = 1000.0 / denominator;
  const double m = round_length(45.0 / mm_per_m);
  const double ft = round_length(45.0 / (mm_per_m * kFootM));
  const std::string metres = m >= 1000.0
                                 ? page::plain_say("words.unit_km", fmt::format("{:g}", m / 1000.0))
                                 : page::plain_say("words.unit_m", fmt::format("{:g}", m));
  return fmt::format(
      "<g class=\"scale-bar\">{}{}</g>", bar(at, m * mm_per_m, metres),
      bar({at.x, at.y + 5.0}, ft * mm_per_m * kFootM,
          page::plain_say("words.unit_ft", page::count(static_cast<std::size_t>(ft)))));
}

std::string north_arrow(Spot at, double turn) {
  return fmt::format(
      "<g class=\"north\" transform=\"translate({} {})rotate({})\"><path class=\"full\" "
      "d=\"M0 -6L0 4L-2.6 6Z\"/><path d=\"M0 -6L2.6 6L0 4Z\" fill=\"#fff\" "
      "stroke-width=\".2\"/>{}</g>",
      mm(at.x), mm(at.y), mm(turn),
      words({0.0, -7.0}, page::label("map.north"), 3.4, Anchor::middle));
}

std::string graticule(const Frame& frame, const ReportData& data) {
  const Degrees degrees(data);
  return lon_ticks(frame, degrees) + lat_ticks(frame, degrees) +
         box({0.0, 0.0}, frame.width, frame.height, {0.4, ""});
}

}  // namespace tidelot::sheet
