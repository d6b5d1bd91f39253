// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "report/html.hpp"
#include "report/map_view.hpp"
#include "report/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

using Json = nlohmann::ordered_json;

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

/// The picture stands in a group that is hidden, not hidden itself, so that paper can use it again.
std::string picture(const MapView& view, const CodedMap& map, bool first, const Sampling& sampling,
                    MapWriter& pictures) {
  return fmt::format(
      "<g data-map=\"{}\"{}><image id=\"picture-{}\" href=\"{}\" x=\"0\" y=\"0\" width=\"{}\" "
      "height=\"{}\" preserveAspectRatio=\"none\"/></g>\n",
      map.key, first ? "" : " hidden", map.key, picture_url(map, sampling, pictures),
      fixed(view.width, 1), fixed(view.height, 1));
}

std::string controls() {
  return R"(<div class="zoom" role="group" aria-label="Zoom">
<button type="button" id="zoom-in" aria-label="Closer">+</button>
<button type="button" id="zoom-out" aria-label="Farther">&minus;</button>
<button type="button" id="zoom-all">Whole bay</button>
</div>
)";
}

std::string map_svg(const MapView& view, std::span<const CodedMap> maps, const Sampling& sampling,
                    MapWriter& pictures) {
  std::string all;
  for (const CodedMap& map : maps) {
    all += picture(view, map, &map == &maps.front(), sampling, pictures);
  }
  all += graticule(view) + closed_shapes(view) + site_marks(view);
  all +=
      "<g id=\"cross\" class=\"px\" data-x=\"0\" data-y=\"0\" hidden>"
      "<path class=\"casing\" d=\"M-9 0H9M0 -9V9\"/><path class=\"edge\" d=\"M-9 0H9M0 -9V9\"/>"
      "</g>";
  all += scale_bars(view) + north_arrow(view);
  return element(fmt::format("svg id=\"map\" viewBox=\"{}\" style=\"--w:{};--h:{}\" "
                             "tabindex=\"0\" role=\"group\" aria-label=\"Map of {}\"",
                             view_box(view), view.data->grid->cols, view.data->grid->rows,
                             text(view.data->plan->title)),
                 hatches(view) + all);
}

/// Numbers that tell the page how to read a map's codes.
Json map_entry(const CodedMap& map) {
  return {{"title", map.button},    {"unit", map.unit},          {"decimals", map.decimals},
          {"low", map.low},         {"high", map.high},          {"special", map.special},
          {"classes", map.classes}, {"codes", packed(map.codes)}};
}

std::string small_map(const MapView& view, const CodedMap& map, MapWriter& pictures) {
  const std::string svg =
      element(fmt::format("svg class=\"small-map\" viewBox=\"{}\" role=\"img\" aria-label=\"{}\"",
                          view_box(view), text(map.button)),
              fmt::format("<use href=\"#picture-{}\"/>", map.key) + closed_shapes(view) +
                  scale_bars(view) + north_arrow(view));
  return element("figure", element("figcaption", text(map.button)) + svg +
                               element("div", legend(map, pictures)));
}

}  // namespace

std::string map_section(const MapView& view, std::span<const CodedMap> maps,
                        const Sampling& sampling, MapWriter& pictures) {
  std::string buttons;
  std::string legends;
  for (const CodedMap& map : maps) {
    const bool first = &map == &maps.front();
    buttons += choice(map, first);
    legends += element(fmt::format("div data-map=\"{}\"{}", map.key, first ? "" : " hidden"),
                       element("h3", text(map.button)) + legend(map, pictures));
  }
  return element(
      "section id=\"the-map\"",
      element("h2", "The map") +
          element("div class=\"choices\" role=\"group\" aria-label=\"What the map shows\"",
                  buttons) +
          element("div class=\"map-and-legend\"",
                  element("div class=\"map-frame\"",
                          controls() + map_svg(view, maps, sampling, pictures)) +
                      element("div class=\"legends\"",
                              element("p id=\"read-out\" class=\"read-out\"",
                                      "Point at the map, or tap it, to read a place.") +
                                  legends + mark_legend(view))));
}

std::string maps_on_paper(const MapView& view, std::span<const CodedMap> maps,
                          MapWriter& pictures) {
  MapView small = view;
  small.px = std::max(view.width / kSmallWidth, view.height / kSmallHeight);
  std::string figures;
  for (const CodedMap& map : maps.subspan(1)) {
    figures += small_map(small, map, pictures);
  }
  return element("section class=\"paper-only small-maps\"",
                 element("h2", "The other maps") + element("div", figures));
}

std::string map_json(const MapView& view, std::span<const CodedMap> maps,
                     std::span<const CodedMap> read_out, const Sampling& sampling) {
  Json all{{"cols", sampling.cols}, {"rows", sampling.rows}, {"first", code::kFirstValue}};
  for (const LonLat& corner : view.data->grid_corners) {
    all["corners"].push_back({corner.lon, corner.lat});
  }
  all["reasons"] =
      std::vector<std::string>(view.data->reason_names.begin(), view.data->reason_names.end());
  for (const CodedMap& map : maps) {
    all["maps"][map.key] = map_entry(map);
  }
  for (const CodedMap& map : read_out) {
    all["maps"][map.key] = map_entry(map);
  }
  return all.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace tidelot::page
