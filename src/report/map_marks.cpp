// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/html.hpp"
#include "report/map_view.hpp"
#include "report/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

constexpr double kFootM = 0.3048;
constexpr double kMileM = 1609.344;

/// Minutes between lines so that at most four or so cross the span.
double graticule_minutes(double span_degrees) {
  constexpr std::array<double, 13> kMinutes{0.02, 0.05, 0.1,  0.2,  0.5,  1.0,  2.0,
                                            5.0,  10.0, 20.0, 30.0, 60.0, 120.0};
  const double wanted = span_degrees * 60.0 / 4.5;
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
  const std::string words = decimal_minutes(degrees, top ? "EW" : "NS", minutes < 0.1 ? 2 : 1);
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
  return {m, m >= 1000.0 ? fmt::format("{} km", shortest(m / 1000.0))
                         : fmt::format("{} m", shortest(m))};
}

Bar us_bar(double target_m) {
  if (target_m >= kMileM) {
    const double miles = round_down(target_m / kMileM);
    return {miles * kMileM, fmt::format("{} mi", shortest(miles))};
  }
  const double feet = round_down(target_m / kFootM);
  return {feet * kFootM, count(static_cast<std::size_t>(feet)) + " ft"};
}

/// Two halves, one full and one hollow, so that the middle can be read.
std::string bar_shape(const MapView& view, const Bar& bar, double y, double zoom) {
  const double half = bar.ground_m * view.data->grid_scale * zoom / 2.0;
  const double x = view.width * 0.03;
  const double thick = 5.0 * view.px;
  return fmt::format(
      "<rect class=\"full\" x=\"{0}\" y=\"{1}\" width=\"{2}\" height=\"{3}\"/>"
      "<rect class=\"hollow\" x=\"{4}\" y=\"{1}\" width=\"{2}\" height=\"{3}\"/>",
      fixed(x, 1), fixed(y, 1), fixed(half, 1), fixed(thick, 1), fixed(x + half, 1));
}

std::string bar_label(const MapView& view, const Bar& bar, double y, double dy) {
  return pixel_group(view, {view.width * 0.03, y}, "bar",
                     fmt::format("<text y=\"{}\">{}</text>", dy, bar.label));
}

std::string scale_bar(const MapView& view, int zoom) {
  const double target = view.width * 0.3 / view.data->grid_scale / zoom;
  const Bar metric = metric_bar(target);
  const Bar us = us_bar(target);
  const double y = view.height - 46.0 * view.px;
  const double thick = 5.0 * view.px;
  return element(
      fmt::format("g class=\"scale-bar\" data-zoom=\"{}\"{}", zoom, zoom > 1 ? " hidden" : ""),
      bar_shape(view, metric, y, zoom) + bar_shape(view, us, y + thick, zoom) +
          bar_label(view, metric, y, -4.0) + bar_label(view, us, y + 2.0 * thick, 13.0));
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

std::string graticule(const MapView& view) {
  const auto& [nw, ne, se, sw] = view.data->grid_corners;
  const double width = view.width;
  const double height = view.height;
  const double lon_minutes = graticule_minutes(ne.lon - nw.lon);
  const double lat_minutes = graticule_minutes(nw.lat - sw.lat);
  std::string all;
  each_line(nw.lon, ne.lon, lon_minutes, [&, &nw = nw, &ne = ne, &se = se, &sw = sw](double lon) {
    const double top = (lon - nw.lon) / (ne.lon - nw.lon) * width;
    const double bottom = (lon - sw.lon) / (se.lon - sw.lon) * width;
    all +=
        line({top, 0.0}, {bottom, height}) + edge_label(view, {top, 0.0}, "top", lon, lon_minutes);
  });
  each_line(sw.lat, nw.lat, lat_minutes, [&, &nw = nw, &ne = ne, &se = se, &sw = sw](double lat) {
    const double left = (nw.lat - lat) / (nw.lat - sw.lat) * height;
    const double right = (ne.lat - lat) / (ne.lat - se.lat) * height;
    all +=
        line({0.0, left}, {width, right}) + edge_label(view, {0.0, left}, "left", lat, lat_minutes);
  });
  return element("g class=\"graticule\"", all);
}

std::string north_arrow(const MapView& view) {
  const XY at{view.width - 30.0 * view.px, 62.0 * view.px};
  return pixel_group(
      view, at, "corner",
      fmt::format("<g class=\"north\" transform=\"rotate({})\"><title>True north</title>"
                  "<path class=\"halo\" d=\"M0 -26L9 16L0 8L-9 16Z\"/>"
                  "<path class=\"full\" d=\"M0 -26L0 8L-9 16Z\"/>"
                  "<path class=\"hollow\" d=\"M0 -26L9 16L0 8Z\"/>"
                  "<text text-anchor=\"middle\" y=\"-30\">N</text></g>",
                  fixed(view.data->grid_convergence_deg, 2)));
}

std::string scale_bars(const MapView& view) {
  std::string all;
  for (int step = 0; step < kZooms; ++step) {
    all += scale_bar(view, 1 << step);
  }
  return all;
}

}  // namespace tidelot::page
