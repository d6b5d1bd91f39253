// SPDX-License-Identifier: Apache-2.0
#include "report/sheets/ground.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "report/sheets/hatches.hpp"
#include "report/sheets/regions.hpp"
#include "report/site/site_figures.hpp"
#include "report/words/say.hpp"
#include "tidelot/criteria/reason_codes.hpp"

namespace tidelot::sheet {
namespace {

constexpr double kFinest = 0.5;  ///< mm: finer steps are not seen in print

std::string ring_path(const Samples& samples, const Ring& ring) {
  std::string d;
  Corner last{-1, -1};
  for (const Corner& corner : ring) {
    const std::string x = mm(samples.first.x + corner.col * samples.side_mm);
    const std::string y = mm(samples.first.y + corner.row * samples.side_mm);
    d += d.empty() ? fmt::format("M{} {}", x, y) : corner.row == last.row ? "H" + x : "V" + y;
    last = corner;
  }
  return d + "Z";
}

/// Leaves out vertices that lie too near for paper to show.
std::string thin_path(const Frame& frame, const Path& line, bool closed) {
  std::vector<Spot> kept;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const Spot at = frame.spot(line[i]);
    const bool end = i == 0 || i + 1 == line.size();
    if (end || std::hypot(at.x - kept.back().x, at.y - kept.back().y) >= 0.15) {
      kept.push_back(at);
    }
  }
  return way(kept, closed);
}

std::string diamond(Spot at) {
  return fmt::format("M{} {}l1.3 1.3l-1.3 1.3l-1.3 -1.3Z", mm(at.x), mm(at.y - 1.3));
}

bool meets(const Frame& frame, const Path& line) {
  Extent e{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity(),
           -std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
  for (const XY& p : line) {
    e = {std::min(e.west, p.x), std::min(e.south, p.y), std::max(e.east, p.x),
         std::max(e.north, p.y)};
  }
  return e.west <= frame.extent.east && e.east >= frame.extent.west &&
         e.south <= frame.extent.north && e.north >= frame.extent.south;
}

std::string areas_path(const Frame& frame, const Shape& shape) {
  std::string d;
  for (const Polygon& polygon : shape.polygons) {
    if (!meets(frame, polygon.outer)) {
      continue;
    }
    d += thin_path(frame, polygon.outer, true);
    for (const Path& hole : polygon.holes) {
      d += thin_path(frame, hole, true);
    }
  }
  for (const XY& point : shape.points) {
    d += frame.holds(point) ? diamond(frame.spot(point)) : "";
  }
  return d;
}

std::string lines_path(const Frame& frame, const Shape& shape) {
  std::string d;
  for (const Path& line : shape.lines) {
    d += meets(frame, line) ? thin_path(frame, line, false) : "";
  }
  return d;
}

std::string cased(std::string_view d, std::string_view fill, Pen pen) {
  return fmt::format("<path class=\"casing\" d=\"{}\" stroke-width=\"{}\"/>", d,
                     mm(pen.width + 0.7)) +
         path(d, pen, fill);
}

std::string star(Spot at) {
  std::string d;
  for (int i = 0; i < 10; ++i) {
    const double angle = i * std::numbers::pi / 5.0;
    const double reach = i % 2 == 0 ? 2.2 : 0.9;
    d += fmt::format("{}{} {}", i == 0 ? 'M' : 'L', mm(at.x + reach * std::sin(angle)),
                     mm(at.y - reach * std::cos(angle)));
  }
  return path(d + "Z", {0.2, ""}, "#000");
}

double longest_side(const Frame& frame, const Site& site) {
  const Spot a = frame.spot(site.corners_xy[0]);
  double most = 0.0;
  for (const XY& corner : site.corners_xy) {
    const Spot b = frame.spot(corner);
    most = std::max(most, std::hypot(b.x - a.x, b.y - a.y));
  }
  return most;
}

/// A grid of places across a polygon; the one that lies deepest inside is good enough for a label.
std::optional<XY> inner_place(const Frame& frame, const Polygon& polygon) {
  constexpr int kTries = 14;
  std::optional<XY> best;
  double reach = 0.0;
  for (int i = 0; i < kTries * kTries; ++i) {
    const Extent& e = frame.extent;
    const int row = i / kTries;
    const XY p{e.west + (i % kTries + 0.5) / kTries * (e.east - e.west),
               e.south + (row + 0.5) / kTries * (e.north - e.south)};
    if (!contains(polygon, p)) {
      continue;
    }
    double off = std::numeric_limits<double>::infinity();
    for (std::size_t k = 0; k + 1 < polygon.outer.size(); ++k) {
      off = std::min(off, distance_to_segment(p, polygon.outer[k], polygon.outer[k + 1]));
    }
    if (off > reach) {
      reach = off;
      best = p;
    }
  }
  return best;
}

std::optional<XY> first_in(const Frame& frame, const Path& line) {
  const std::size_t half = line.size() / 2;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const XY p = line[(half + i) % line.size()];
    if (frame.holds(p)) {
      return p;
    }
  }
  return std::nullopt;
}

}  // namespace

Samples samples_of(const Frame& frame, const Grid& grid) {
  Samples out;
  const double cell_mm = grid.cell_m * frame.mm_per_m;
  const double merged = std::max(1.0, std::floor(kFinest / cell_mm + 1e-9));
  const double side_m = merged * grid.cell_m;
  out.side_mm = side_m * frame.mm_per_m;
  // Samples begin on the grid's own lines, so that a cell is drawn where it lies.
  const double west = grid.west + std::floor((frame.extent.west - grid.west) / side_m) * side_m;
  const double north = grid.north - std::floor((grid.north - frame.extent.north) / side_m) * side_m;
  out.first = frame.spot({west, north});
  out.cols = static_cast<int>(std::ceil((frame.extent.east - west) / side_m - 1e-9));
  out.rows = static_cast<int>(std::ceil((north - frame.extent.south) / side_m - 1e-9));
  for (int row = 0; row < out.rows; ++row) {
    for (int col = 0; col < out.cols; ++col) {
      const Cell cell = grid.cell_of({west + (col + 0.5) * side_m, north - (row + 0.5) * side_m});
      out.cells.push_back(grid.holds(cell) ? grid.index(cell.col, cell.row) : Samples::kNone);
    }
  }
  return out;
}

std::vector<std::uint8_t> coded(const Samples& samples,
                                const std::function<std::uint8_t(std::size_t cell)>& code,
                                std::uint8_t outside) {
  std::vector<std::uint8_t> codes;
  codes.reserve(samples.cells.size());
  samples.each(
      [&](std::size_t cell) { codes.push_back(cell == Samples::kNone ? outside : code(cell)); });
  return codes;
}

std::string area(const Samples& samples, std::span<const std::uint8_t> codes, std::uint8_t code,
                 std::string_view fill, Pen pen) {
  std::string d;
  for (const Ring& ring : outlines(samples.cols, samples.rows, codes, code)) {
    d += ring_path(samples, ring);
  }
  if (d.empty()) {
    return "";
  }
  return pen.width > 0.0 ? path(d, pen, fill)
                         : fmt::format("<path class=\"bare\" d=\"{}\" fill=\"{}\"/>", d, fill);
}

std::string land_and_unknown(const Frame& frame, const ReportData& data) {
  const Samples samples = samples_of(frame, *data.grid);
  const auto codes = coded(
      samples,
      [&](std::size_t cell) -> std::uint8_t {
        const std::uint8_t why = data.maps.reason[cell];
        return why == reason::kLand                          ? 1
               : why == reason::kOutside                     ? 0
               : std::isnan(data.maps.depth_low_water[cell]) ? 2
                                                             : 3;
      },
      0);
  return area(samples, codes, 2, kUnknown, {0.2, "1 .6"}) +
         area(samples, codes, 1, kLand, {0.45, ""});
}

std::string shape(const Frame& frame, const Shape& shape, std::string_view fill, Pen pen) {
  const std::string areas = areas_path(frame, shape);
  const std::string lines = lines_path(frame, shape);
  return (areas.empty() ? "" : cased(areas, fill, pen)) +
         (lines.empty() ? "" : cased(lines, "none", pen));
}

std::optional<Spot> label_spot(const Frame& frame, const Shape& shape) {
  for (const Polygon& polygon : shape.polygons) {
    if (const auto inside =
            meets(frame, polygon.outer) ? inner_place(frame, polygon) : std::nullopt) {
      return frame.spot(*inside);
    }
    if (const auto edge = first_in(frame, polygon.outer)) {
      return frame.spot(*edge);
    }
  }
  for (const Path& line : shape.lines) {
    if (const auto place = first_in(frame, line)) {
      return frame.spot(*place);
    }
  }
  const auto point = first_in(frame, shape.points);
  return point ? std::optional<Spot>(frame.spot(*point)) : std::nullopt;
}

std::string boundary(const Frame& frame, const Site& site, Pen pen) {
  std::vector<Spot> spots;
  for (const XY& corner : site.corners_xy) {
    spots.push_back(frame.spot(corner));
  }
  return cased(way(spots, true), "#fff", pen);
}

std::string site_marks(const Frame& frame, const ReportData& data, Labels& labels) {
  std::string all;
  std::string names;
  for (const std::vector<Site>* list : {&data.sites->ranked, &data.sites->apart}) {
    for (const Site& site : *list) {
      const Spot at = frame.spot(site.centre_xy);
      if (!frame.holds(site.centre_xy)) {
        continue;
      }
      const bool small = longest_side(frame, site) < 3.0;
      const Pen pen{0.5, page::is_ranked(site) ? "" : "1 .6"};
      all += boundary(frame, site, pen) + (small ? star(at) : "");
      labels.keep({at.x - 2.3, at.y - 2.3}, 4.6, 4.6);
      names += labels.near(at, site.name, 3.2, 2.8);
    }
  }
  return all + "<g class=\"bold\">" + names + "</g>";
}

XY off_from(XY origin, const Direction& way, const ReportData& data) {
  // True north lies the convergence clockwise of grid north.
  const double turn = (way.bearing_deg + data.grid_convergence_deg) * std::numbers::pi / 180.0;
  const double m = way.distance_m * data.grid_scale;
  return {origin.x + m * std::sin(turn), origin.y + m * std::cos(turn)};
}

std::string clipped(const Frame& frame, std::string_view id, std::string_view content) {
  return fmt::format(
      "<clipPath id=\"{0}\"><rect width=\"{1}\" height=\"{2}\"/></clipPath><g "
      "clip-path=\"url(#{0})\">{3}</g>",
      id, mm(frame.width), mm(frame.height), content);
}

std::string map_drawing(const Frame& frame, const ReportData& data, std::string_view id,
                        std::string_view label, std::string_view content, std::string_view above) {
  const double foot = frame.height + 5.0;
  const double width = std::max(frame.width, 66.0);
  return drawing(width + 0.5, frame.height + kFurniture, label,
                 "<g transform=\"translate(.25 .25)\">" + clipped(frame, id, content) +
                     graticule(frame, data) + std::string(above) +
                     north_arrow({5.0, foot + 5.0}, data.grid_convergence_deg) +
                     scale_bar({14.0, foot}, frame.denominator) +
                     words({14.0, foot + 10.0},
                           page::plain_say("paper.scale", scale_words(frame.denominator)), 3.0) +
                     "</g>");
}

std::string key_map(const Site& site, const ReportData& data, std::string_view id, double width,
                    double height) {
  const double more = 4.0 * std::max(site.size.length_m, site.size.width_m);
  const Frame frame =
      filled_frame(around(site, more), extent_of(*data.grid), data.grid_scale, width, height);
  const Spot at = frame.spot(site.centre_xy);
  return map_drawing(
      frame, data, id, page::label("paper.where_the_site_lies"),
      land_and_unknown(frame, data) + boundary(frame, site, {0.5, ""}),
      "<g class=\"bold\">" + words({at.x + 3.0, at.y - 3.0}, site.name, 3.0) + "</g>");
}

}  // namespace tidelot::sheet
