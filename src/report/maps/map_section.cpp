// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "report/maps/map_view.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

// Whose outlines: of the map, of the small maps.
constexpr std::string_view kClosed = "closed";
constexpr std::string_view kClosedSmall = "closed-small";

// A small map on paper, in pixels of 1/96 inch.
constexpr double kSmallWidth = 180.0;
constexpr double kSmallHeight = 249.0;

std::string view_box(const MapView& view) {
  return fmt::format("0 0 {} {}", fixed(view.width, 1), fixed(view.height, 1));
}

std::string choice(const CodedMap& map, bool first) {
  return element(fmt::format("button type=\"button\" data-map=\"{}\" aria-pressed=\"{}\"", map.key,
                             first ? "true" : "false"),
                 text(map.button));
}

std::string controls() {
  const auto button = [](std::string_view id, std::string_view name, std::string_view face) {
    return fmt::format("<button type=\"button\" id=\"{}\" aria-label=\"{}\">{}</button>\n", id,
                       say(name), face);
  };
  return element(
      fmt::format("div class=\"zoom\" role=\"group\" aria-label=\"{}\"", say("map.zoom")),
      button("zoom-in", "map.closer", "+") + button("zoom-out", "map.farther", "&minus;") +
          fmt::format("<button type=\"button\" id=\"zoom-all\">{}</button>\n",
                      say("map.whole_bay")));
}

constexpr std::string_view kCross =
    "<g id=\"cross\" class=\"px\" data-x=\"0\" data-y=\"0\" display=\"none\"><path "
    "class=\"casing\" "
    "d=\"M-9 0H9M0 -9V9\"/><path class=\"edge\" d=\"M-9 0H9M0 -9V9\"/></g>";

std::string still(const MapView& view, const std::string& url) {
  return fmt::format(
      "<image id=\"still\" href=\"{}\" width=\"{}\" height=\"{}\" "
      "preserveAspectRatio=\"none\"/>\n",
      url, fixed(view.width, 1), fixed(view.height, 1));
}

std::string map_svg(const MapView& view, const std::string& still_url) {
  return element(
      fmt::format("svg id=\"map\" viewBox=\"{}\" data-levels=\"{}\" tabindex=\"0\" "
                  "role=\"group\" aria-label=\"{}\" aria-describedby=\"map-help\"",
                  view_box(view), kZooms, text(plain_say("map.map_of", view.data->plan->title))),
      hatches(view) + still(view, still_url) + graticule(view, kZooms) +
          closed_paths(view, kClosed) + closed_shapes(view, kClosed) + site_marks(view) +
          std::string(kCross) + graticule_labels(view, kZooms) + scale_bars(view, kZooms) +
          north_arrow(view));
}

/// Canvas and drawing, one over the other.
std::string stage(std::string_view canvas, const std::string& svg) {
  return element("div class=\"stage\"", element(canvas, "") + svg);
}

/// What is drawn over every small map.
std::string small_drawing(const MapView& view) {
  return graticule(view) + closed_shapes(view, kClosedSmall) + scale_bars(view) + north_arrow(view);
}

std::string small_map(const MapView& view, const CodedMap& map, const std::string& drawing,
                      MapWriter& pictures) {
  const std::string svg =
      element(fmt::format("svg class=\"small-map\" viewBox=\"{}\" role=\"img\" aria-label=\"{}\"",
                          view_box(view), text(map.button)),
              drawing);
  return element("figure",
                 element("figcaption", text(map.button)) +
                     stage(fmt::format("canvas class=\"small\" data-map=\"{}\"", map.key), svg) +
                     element("div", legend(map, pictures)));
}

/// How the picture was sampled where it does not show every cell.
std::string sampling_note(const Sampling& sampling, const Grid& grid) {
  return sampling.size() == grid.size()
             ? ""
             : element("p class=\"about\"",
                       say("map.sampled", sampling.cols, sampling.rows, grid.cols, grid.rows));
}

}  // namespace

std::string map_section(const MapView& view, const PageMaps& maps, MapWriter& pictures) {
  std::string buttons;
  std::string legends;
  for (const CodedMap& map : maps.shown) {
    const bool first = &map == &maps.shown.front();
    buttons += choice(map, first);
    legends += element(fmt::format("div data-map=\"{}\"{}", map.key, first ? "" : " hidden"),
                       element("h3", text(map.button)) + legend(map, pictures));
  }
  const std::string frame = controls() + stage("canvas id=\"picture\"", map_svg(view, maps.still)) +
                            element("p id=\"map-help\" class=\"note\"", say("map.help"));
  const std::string beside =
      element("p id=\"read-out\" class=\"read-out\" role=\"status\"", say("map.point_at_it")) +
      element("div id=\"why\" class=\"why\" role=\"status\"", "") + legends +
      sampling_note(maps.sampling, *view.data->grid) + mark_legend(view);
  return element(
      "section id=\"the-map\"",
      element("h2", say("map.title")) +
          element(fmt::format("div class=\"choices\" role=\"group\" aria-label=\"{}\"",
                              say("map.choose")),
                  buttons) +
          element("div class=\"map-and-legend\"", element("div class=\"map-frame\"", frame) +
                                                      element("div class=\"legends\"", beside)));
}

std::string maps_on_paper(const MapView& view, std::span<const CodedMap> maps,
                          MapWriter& pictures) {
  MapView small = view;
  small.px = std::max(view.width / kSmallWidth, view.height / kSmallHeight);
  const std::string drawing = small_drawing(small);
  std::string figures;
  for (const CodedMap& map : maps.subspan(1)) {
    const bool first = figures.empty();
    figures += small_map(small, map, first ? closed_paths(small, kClosedSmall) + drawing : drawing,
                         pictures);
  }
  return element("section class=\"paper-only small-maps\"",
                 element("h2", say("map.other_maps")) + element("div", figures));
}

}  // namespace tidelot::page
