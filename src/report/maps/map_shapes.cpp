// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <array>
#include <cmath>

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

/// Appends a path, leaving out vertices that a page of paper cannot show.
void append_path(const MapView& view, const Path& path, bool closed, std::string& d) {
  const double least = view.px * 0.4;
  XY last{};
  for (std::size_t i = 0; i < path.size(); ++i) {
    const XY at = on_map(view, path[i]);
    const bool end = i == 0 || i + 1 == path.size();
    if (!end && std::hypot(at.x - last.x, at.y - last.y) < least) {
      continue;
    }
    d += i == 0 ? 'M' : 'L';
    d += fixed(at.x, 1);
    d += ' ';
    d += fixed(at.y, 1);
    last = at;
  }
  d += closed && !path.empty() ? "Z" : "";
}

/// A point is a small diamond.
void append_point(const MapView& view, XY point, std::string& d) {
  const XY at = on_map(view, point);
  const double size = 5.0 * view.px;
  d += fmt::format("M{0} {1}l{2} {2}l-{2} {2}l-{2} -{2}Z", fixed(at.x, 1), fixed(at.y - size, 1),
                   fixed(size, 1));
}

std::string areas_path(const MapView& view, const ClosedLayer& layer) {
  std::string d;
  for (const Feature& feature : layer.features) {
    for (const Polygon& polygon : feature.shape.polygons) {
      append_path(view, polygon.outer, true, d);
      for (const Path& hole : polygon.holes) {
        append_path(view, hole, true, d);
      }
    }
    for (const XY& point : feature.shape.points) {
      append_point(view, point, d);
    }
  }
  return d;
}

std::string lines_path(const MapView& view, const ClosedLayer& layer) {
  std::string d;
  for (const Feature& feature : layer.features) {
    for (const Path& each : feature.shape.lines) {
      append_path(view, each, false, d);
    }
  }
  return d;
}

/// A white band under an inked line, so that it shows on any colour.
std::string outlined(std::string_view d, std::string_view fill, std::string_view dashes) {
  return fmt::format(
      "<path class=\"casing\" d=\"{0}\"/><path class=\"edge\" d=\"{0}\" fill=\"{1}\" "
      "fill-rule=\"evenodd\"{2}/>",
      d, fill, dashes.empty() ? "" : fmt::format(" stroke-dasharray=\"{}\"", dashes));
}

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

std::string closed_shapes(const MapView& view) {
  std::string all;
  for (std::size_t rule = 0; rule < view.data->closed.size(); ++rule) {
    const ClosedLayer& layer = view.data->closed[rule];
    const std::string fill = fmt::format("url(#hatch-{})", rule);
    const std::string areas = areas_path(view, layer);
    const std::string tracks = lines_path(view, layer);
    const std::string_view dashes = hatch_of(rule).dashes;
    all += element("g", element("title", text(layer.plan.name)) +
                            (areas.empty() ? "" : outlined(areas, fill, dashes)) +
                            (tracks.empty() ? "" : outlined(tracks, "none", dashes)));
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
      outlined(d, fmt::format("url(#hatch-{})", rule), hatch_of(rule).dashes));
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
