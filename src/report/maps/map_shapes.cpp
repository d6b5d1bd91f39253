// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "report/maps/flag_places.hpp"
#include "report/maps/map_view.hpp"
#include "report/site/site_figures.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

/// A hatch: strokes in a square of 10, and the dashes of the outline.
struct Hatch {
  std::string_view strokes;
  std::string_view dashes;
};
constexpr std::array<Hatch, 8> kHatches{{
    {"M-2 2L2 -2M0 10L10 0M8 12L12 8", ""},
    {"M-2 8L2 12M0 0L10 10M8 -2L12 2", "7 3"},
    {"M0 5L10 5", "2 3"},
    {"M5 0L5 10", "9 3 2 3"},
    {"M0 5L10 5M5 0L5 10", "5 2"},
    {"M0 0L10 10M0 10L10 0", "1.5 2.5"},
    {"M3 5L7 5", "12 3"},
    {"M0 3L5 7L10 3", "3 2 1 2"},
}};

const Hatch& hatch_of(std::size_t rule) { return kHatches[rule % kHatches.size()]; }

/// Writes paths in short: whole steps of the map, each vertex from the one before.
class PathText {
 public:
  explicit PathText(const MapView& view)
      : view_(view), steps_a_metre_(view.px < kCoarsePixel ? 10.0 : 1.0) {}

  /// Vertices that a page of paper cannot show are left out.
  void add(const Path& path, bool closed) {
    const double least = view_.px * 0.4;
    XY last{};
    for (std::size_t i = 0; i < path.size(); ++i) {
      const XY at = on_map(view_, path[i]);
      const bool end = i == 0 || i + 1 == path.size();
      if (end || std::hypot(at.x - last.x, at.y - last.y) >= least) {
        put(at, i == 0);
        last = at;
      }
    }
    text_ += closed && !path.empty() ? "Z" : "";
  }
  /// A point is a small diamond.
  void add(XY point) {
    const XY at = on_map(view_, point);
    const double size = 5.0 * view_.px;
    put({at.x, at.y - size}, true);
    put({at.x + size, at.y}, false);
    put({at.x, at.y + size}, false);
    put({at.x - size, at.y}, false);
    text_ += 'Z';
  }
  [[nodiscard]] std::string take() { return std::move(text_); }

 private:
  /// Where a pixel of the paper shows so many metres, the nearest zoom shows two or more a pixel.
  static constexpr double kCoarsePixel = 1 << kZooms;

  void put(XY at, bool first) {
    const long x = std::lround(at.x * steps_a_metre_);
    const long y = std::lround(at.y * steps_a_metre_);
    text_ += first ? 'M' : 'l';
    number(first ? x : x - x_);
    text_ += ' ';
    number(first ? y : y - y_);
    x_ = x;
    y_ = y;
  }
  void number(long steps) {
    text_ += fixed(static_cast<double>(steps) / steps_a_metre_, steps_a_metre_ > 1.0 ? 1 : 0);
  }

  const MapView& view_;
  double steps_a_metre_;
  std::string text_;
  long x_ = 0;  ///< the last vertex, steps
  long y_ = 0;
};

std::string areas_path(const MapView& view, const ClosedLayer& layer) {
  PathText d(view);
  for (const Feature& feature : layer.features) {
    for (const Polygon& polygon : feature.shape.polygons) {
      d.add(polygon.outer, true);
      for (const Path& hole : polygon.holes) {
        d.add(hole, true);
      }
    }
    for (const XY& point : feature.shape.points) {
      d.add(point);
    }
  }
  return d.take();
}

std::string lines_path(const MapView& view, const ClosedLayer& layer) {
  PathText d(view);
  for (const Feature& feature : layer.features) {
    for (const Path& each : feature.shape.lines) {
      d.add(each, false);
    }
  }
  return d.take();
}

std::string defined(std::string_view id, const std::string& d) {
  return d.empty() ? ""
                   : fmt::format("<path id=\"{}\" d=\"{}\" vector-effect=\"non-scaling-stroke\"/>",
                                 id, d);
}

bool has_areas(const Feature& feature) {
  return !feature.shape.polygons.empty() || !feature.shape.points.empty();
}
bool has_lines(const Feature& feature) { return !feature.shape.lines.empty(); }

std::string areas_id(std::string_view name, std::size_t rule) {
  return fmt::format("{}-areas-{}", name, rule);
}
std::string lines_id(std::string_view name, std::size_t rule) {
  return fmt::format("{}-lines-{}", name, rule);
}

/// What is drawn as `drawn` says, under itself in white and in ink: a white band under an inked
/// line, so that it shows on any colour.
std::string outlined(std::string_view drawn, std::string_view fill, std::string_view dashes) {
  return fmt::format(
      "<{0} class=\"casing\"/><{0} class=\"edge\" fill=\"{1}\" fill-rule=\"evenodd\"{2}/>", drawn,
      fill, dashes.empty() ? "" : fmt::format(" stroke-dasharray=\"{}\"", dashes));
}

std::string use_of(std::string_view id) { return fmt::format("use href=\"#{}\"", id); }

std::string ring(const MapView& view, const Site& site) {
  std::string d;
  for (std::size_t i = 0; i < site.corners_xy.size(); ++i) {
    const XY at = on_map(view, site.corners_xy[i]);
    d += fmt::format("{}{} {}", i == 0 ? 'M' : 'L', fixed(at.x, 1), fixed(at.y, 1));
  }
  return d + "Z";
}

/// A disc with the number, or a longer one with the name of an own box.
double flag_width(const Site& site) { return site.own > 0 ? 52.0 : kFlagHeight; }

std::string flag_of(const Site& site, XY place) {
  const double width = flag_width(site);
  const double reach = 1.0 - 10.0 / std::hypot(place.x, place.y);
  return fmt::format(
      "<path class=\"leader\" d=\"M0 0L{} {}\"/><rect x=\"{}\" y=\"{}\" width=\"{}\" "
      "height=\"22\" rx=\"11\"/><text x=\"{}\" y=\"{}\" text-anchor=\"middle\">{}</text>",
      fixed(reach * place.x, 1), fixed(reach * place.y, 1), fixed(place.x - width / 2.0, 1),
      fixed(place.y - kFlagHeight / 2.0, 1), width, fixed(place.x, 1), fixed(place.y + 4.0, 1),
      short_name(site));
}

/// Of the sites in their order, at the scale of the paper.
std::vector<XY> places_of(const MapView& view, std::span<const Site* const> sites) {
  std::vector<Flagged> flagged;
  for (const Site* site : sites) {
    const XY at = on_map(view, site->centre_xy);
    flagged.push_back({{at.x / view.px, at.y / view.px}, flag_width(*site)});
  }
  return flag_places(flagged, {view.width / view.px, view.height / view.px});
}

std::string site_mark(const MapView& view, const Site& site, XY place) {
  const std::string name = plain_name(site);
  const std::string words =
      text(plain_say(is_ranked(site) ? "map.site_ranked" : "map.site_listed_apart", called(site)));
  const std::string flag =
      pixel_group(view, on_map(view, site.centre_xy), "", flag_of(site, place));
  return fmt::format(
      "<a class=\"site{4}\" id=\"on-map-{0}\" href=\"#site-{0}\" aria-label=\"{1}\">"
      "<title>{1}</title><path class=\"casing\" d=\"{2}\"/><path class=\"edge\" d=\"{2}\"/>{3}"
      "</a>\n",
      name, words, ring(view, site), flag, is_ranked(site) ? "" : " apart");
}

}  // namespace

std::string hatches(const MapView& view) {
  std::string all;
  for (std::size_t rule = 0; rule < view.data->closed.size(); ++rule) {
    all += fmt::format(
        "<pattern id=\"hatch-{0}\" width=\"10\" height=\"10\" patternUnits=\"userSpaceOnUse\" "
        "patternTransform=\"scale({1})\"><path class=\"under\" d=\"{2}\"/><path class=\"over\" "
        "d=\"{2}\"/></pattern>",
        rule, fixed(view.px, 4), hatch_of(rule).strokes);
  }
  return element("defs", all);
}

std::string closed_paths(const MapView& view, std::string_view name) {
  std::string all;
  for (std::size_t rule = 0; rule < view.data->closed.size(); ++rule) {
    const ClosedLayer& layer = view.data->closed[rule];
    all += defined(areas_id(name, rule), areas_path(view, layer));
    all += defined(lines_id(name, rule), lines_path(view, layer));
  }
  return element("defs", all);
}

std::string closed_shapes(const MapView& view, std::string_view name) {
  std::string all;
  for (std::size_t rule = 0; rule < view.data->closed.size(); ++rule) {
    const ClosedLayer& layer = view.data->closed[rule];
    const std::string_view dashes = hatch_of(rule).dashes;
    std::string group = element("title", text(layer.plan.name));
    if (std::any_of(layer.features.begin(), layer.features.end(), has_areas)) {
      group += outlined(use_of(areas_id(name, rule)), fmt::format("url(#hatch-{})", rule), dashes);
    }
    if (std::any_of(layer.features.begin(), layer.features.end(), has_lines)) {
      group += outlined(use_of(lines_id(name, rule)), "none", dashes);
    }
    all += element("g", group);
  }
  return element("g class=\"closed-areas\"", all);
}

std::string hatch_swatch(const MapView& view, std::size_t rule) {
  const double width = 44.0 * view.px;
  const double height = 22.0 * view.px;
  const std::string d = fmt::format("M0 0H{}V{}H0Z", fixed(width, 2), fixed(height, 2));
  return element(
      fmt::format("svg class=\"swatch closed-areas\" viewBox=\"0 0 {} {}\" aria-hidden=\"true\"",
                  fixed(width, 2), fixed(height, 2)),
      outlined(fmt::format("path d=\"{}\"", d), fmt::format("url(#hatch-{})", rule),
               hatch_of(rule).dashes));
}

std::string site_marks(const MapView& view) {
  std::vector<const Site*> sites;
  for (const std::vector<Site>* list : {&view.data->sites->apart, &view.data->sites->ranked}) {
    for (const Site& site : *list) {
      sites.push_back(&site);
    }
  }
  const std::vector<XY> places = places_of(view, sites);
  std::string all;
  for (std::size_t i = 0; i < sites.size(); ++i) {
    all += site_mark(view, *sites[i], places[i]);
  }
  return element("g class=\"sites\"", all);
}

}  // namespace tidelot::page
