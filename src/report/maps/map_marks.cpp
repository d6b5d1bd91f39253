// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/maps/map_view.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

constexpr double kFootM = 0.3048;
constexpr double kMileM = 1609.344;

constexpr double kMostLines = 4.5;
constexpr double kLabelWidth = 100.0;  // px that "30\u00b0 04.00\u2032 W" and a gap take

/// Minutes between lines so that at most four or so cross the span.
double graticule_minutes(double span_degrees, double lines, int level) {
  constexpr std::array<double, 15> kMinutes{0.005, 0.01, 0.02, 0.05, 0.1,  0.2,  0.5,  1.0,
                                            2.0,   5.0,  10.0, 20.0, 30.0, 60.0, 120.0};
  const double wanted = span_degrees * 60.0 / lines / (1 << level);
  const auto found = std::lower_bound(kMinutes.begin(), kMinutes.end(), wanted);
  return found == kMinutes.end() ? kMinutes.back() : *found;
}

std::string line(XY a, XY b) {
  return fmt::format("<path d=\"M{} {}L{} {}\"/>", fixed(a.x, 1), fixed(a.y, 1), fixed(b.x, 1),
                     fixed(b.y, 1));
}

std::string edge_label(const MapView& view, XY at, std::string_view pin, double degrees,
                       double minutes) {
  const bool top = pin == "top";
  const std::string words =
      decimal_minutes(degrees, top ? label("words.east_west") : label("words.north_south"),
                      minutes < 0.01  ? 3
                      : minutes < 0.1 ? 2
                                      : 1);
  const std::string_view place = top ? "x=\"4\" y=\"13\"" : "x=\"4\" y=\"-4\"";
  return pixel_group(view, at, pin, element(fmt::format("text {}", place), words));
}

/// Calls draw(degrees) for the multiples of `minutes` strictly between two values.
template <typename Draw>
void each_line(double low, double high, double minutes, Draw draw) {
  const auto first = std::lround(std::ceil(low * 60.0 / minutes));
  const auto last = std::lround(std::floor(high * 60.0 / minutes));
  for (long k = first; k <= last; ++k) {
    draw(static_cast<double>(k) * minutes / 60.0);
  }
}

/// The largest of 1, 2, 5 times a power of ten that is not above the value.
double round_down(double value) {
  const double power = std::pow(10.0, std::floor(std::log10(value)));
  return value >= 5.0 * power ? 5.0 * power : value >= 2.0 * power ? 2.0 * power : power;
}

struct Bar {
  double ground_m = 0.0;
  std::string label;
};

Bar metric_bar(double target_m) {
  const double m = round_down(target_m);
  return {m, m >= 1000.0 ? plain_say("words.unit_km", shortest(m / 1000.0))
                         : plain_say("words.unit_m", shortest(m))};
}

Bar us_bar(double target_m) {
  if (target_m >= kMileM) {
    const double miles = round_down(target_m / kMileM);
    return {miles * kMileM, plain_say("words.unit_mi", shortest(miles))};
  }
  const double feet = round_down(target_m / kFootM);
  return {feet * kFootM, plain_say("words.unit_ft", count(static_cast<std::size_t>(feet)))};
}

/// Two halves, one full and one hollow, so that the middle can be read. Lengths in metres of the
/// grid, heights in pixels.
std::string bar_shape(const MapView& view, const Bar& bar, double y) {
  const double half = bar.ground_m * view.data->grid_scale / 2.0;
  return fmt::format(
      "<rect class=\"full\" x=\"0\" y=\"{0}\" width=\"{1}\" height=\"5\"/>"
      "<rect class=\"hollow\" x=\"{1}\" y=\"{0}\" width=\"{1}\" height=\"5\"/>",
      y, fixed(half, 2));
}

/// What a bar measures; keeps its size on the screen.
std::string bar_label(const MapView& view, const Bar& bar, double y) {
  return fmt::format(
      "<g class=\"flat\" data-x=\"0\" transform=\"scale({})\"><text y=\"{}\">{}</text></g>",
      fixed(view.px, 4), y, bar.label);
}

std::string scale_bar(const MapView& view, int level) {
  const double target = view.width * 0.2 / view.data->grid_scale / (1 << level);
  const Bar metric = metric_bar(target);
  const Bar us = us_bar(target);
  const double length = std::max(metric.ground_m, us.ground_m) * view.data->grid_scale;
  const double x = view.width - length - 14.0 * view.px;
  const double y = view.height - 30.0 * view.px;
  const std::string plate =
      fmt::format("<rect class=\"plate\" x=\"{}\" y=\"-22\" width=\"{}\" height=\"50\"/>",
                  fixed(-0.04 * length, 2), fixed(1.08 * length, 2));
  return element(
      fmt::format("g class=\"scale-bar\" data-level=\"{}\" data-length=\"{}\" "
                  "transform=\"translate({} {})\"{}",
                  level, fixed(length, 2), fixed(x, 1), fixed(y, 1),
                  level > 0 ? " display=\"none\"" : ""),
      element(fmt::format("g class=\"tall\" transform=\"scale(1 {})\"", fixed(view.px, 4)),
              plate + bar_shape(view, metric, 0.0) + bar_shape(view, us, 5.0)) +
          bar_label(view, metric, -5.0) + bar_label(view, us, 23.0));
}

/// Minutes between the meridians and between the parallels of a level.
struct Lines {
  double lon_minutes = 1.0;
  double lat_minutes = 1.0;
};
Lines lines_of(const MapView& view, int level) {
  const auto& [nw, ne, se, sw] = view.data->grid_corners;
  const double across = std::clamp(view.width / view.px / kLabelWidth, 1.0, kMostLines);
  return {graticule_minutes(ne.lon - nw.lon, across, level),
          graticule_minutes(nw.lat - sw.lat, kMostLines, level)};
}

std::string level_group(int level, const std::string& content) {
  return element(fmt::format("g class=\"graticule\" data-level=\"{}\"{}", level,
                             level > 0 ? " display=\"none\"" : ""),
                 content);
}

std::string lines_at(const MapView& view, int level) {
  const auto& [nw, ne, se, sw] = view.data->grid_corners;
  const double width = view.width;
  const double height = view.height;
  const Lines every = lines_of(view, level);
  std::string all;
  each_line(nw.lon, ne.lon, every.lon_minutes,
            [&, &nw = nw, &ne = ne, &se = se, &sw = sw](double lon) {
              all += line({(lon - nw.lon) / (ne.lon - nw.lon) * width, 0.0},
                          {(lon - sw.lon) / (se.lon - sw.lon) * width, height});
            });
  each_line(sw.lat, nw.lat, every.lat_minutes,
            [&, &nw = nw, &ne = ne, &se = se, &sw = sw](double lat) {
              all += line({0.0, (nw.lat - lat) / (nw.lat - sw.lat) * height},
                          {width, (ne.lat - lat) / (ne.lat - se.lat) * height});
            });
  return level_group(level, all);
}

std::string labels_at(const MapView& view, int level) {
  const auto& [nw, ne, se, sw] = view.data->grid_corners;
  const Lines every = lines_of(view, level);
  std::string all;
  each_line(nw.lon, ne.lon, every.lon_minutes, [&, &nw = nw, &ne = ne](double lon) {
    const double x = (lon - nw.lon) / (ne.lon - nw.lon) * view.width;
    all += edge_label(view, {x, 0.0}, "top", lon, every.lon_minutes);
  });
  each_line(sw.lat, nw.lat, every.lat_minutes, [&, &nw = nw, &sw = sw](double lat) {
    const double y = (nw.lat - lat) / (nw.lat - sw.lat) * view.height;
    all += edge_label(view, {0.0, y}, "left", lat, every.lat_minutes);
  });
  return level_group(level, all);
}

template <typename Make>
std::string every_level(int levels, Make make) {
  std::string all;
  for (int level = 0; level < levels; ++level) {
    all += make(level);
  }
  return all;
}

}  // namespace

MapView view_of(const ReportData& data) {
  const Grid& grid = *data.grid;
  MapView view{&data, grid.cols * grid.cell_m, grid.rows * grid.cell_m, 1.0};
  view.px = std::max(view.width / 690.0, view.height / 760.0);
  return view;
}

XY on_map(const MapView& view, XY grid) {
  return {grid.x - view.data->grid->west, view.data->grid->north - grid.y};
}

std::string pixel_group(const MapView& view, XY at, std::string_view pin,
                        std::string_view content) {
  return fmt::format(
      "<g class=\"px\" data-x=\"{0}\" data-y=\"{1}\"{2} transform=\"translate({0} {1}) "
      "scale({3})\">{4}</g>",
      fixed(at.x, 1), fixed(at.y, 1), pin.empty() ? "" : fmt::format(" data-pin=\"{}\"", pin),
      fixed(view.px, 4), content);
}

std::string graticule(const MapView& view, int levels) {
  return every_level(levels, [&](int level) { return lines_at(view, level); });
}

std::string graticule_labels(const MapView& view, int levels) {
  return every_level(levels, [&](int level) { return labels_at(view, level); });
}

std::string north_arrow(const MapView& view) {
  const XY at{view.width - 30.0 * view.px, 62.0 * view.px};
  return pixel_group(view, at, "corner",
                     fmt::format("<g class=\"north\" transform=\"rotate({})\"><title>{}</title>"
                                 "<path class=\"halo\" d=\"M0 -26L9 16L0 8L-9 16Z\"/>"
                                 "<path class=\"full\" d=\"M0 -26L0 8L-9 16Z\"/>"
                                 "<path class=\"hollow\" d=\"M0 -26L9 16L0 8Z\"/>"
                                 "<text text-anchor=\"middle\" y=\"-30\">{}</text></g>",
                                 fixed(view.data->grid_convergence_deg, 2), say("map.true_north"),
                                 say("map.north")));
}

std::string scale_bars(const MapView& view, int levels) {
  return every_level(levels, [&](int level) { return scale_bar(view, level); });
}

}  // namespace tidelot::page
