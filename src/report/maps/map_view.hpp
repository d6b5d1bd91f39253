// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string>
#include <vector>

#include "report/maps/page_maps.hpp"
#include "report/maps/picture.hpp"
#include "tidelot/report/report.hpp"

/// The map as SVG, in metres of the grid: x to the east, y to the south from the north-west corner.
///
/// What keeps its size on the screen (labels, the north arrow) stands in a group of class "px"
/// whose transform page.js sets anew when the view changes; the transform written here fits a page
/// of paper.
namespace tidelot::page {

/// Levels of the zoom, each twice as near; there is a scale bar and a graticule for each.
inline constexpr int kZooms = 6;

struct MapView {
  const ReportData* data = nullptr;
  double width = 0.0;   ///< m on the grid
  double height = 0.0;  ///< m on the grid
  double px = 1.0;      ///< m of the grid that one pixel of a printed page shows
};
[[nodiscard]] MapView view_of(const ReportData& data);
[[nodiscard]] XY on_map(const MapView& view, XY grid);

/// A label of constant size on the screen. pin: "" stays at its place; "top", "left" and "corner"
/// move with the view.
[[nodiscard]] std::string pixel_group(const MapView& view, XY at, std::string_view pin,
                                      std::string_view content);

/// Lines of longitude and latitude, closer from level to level.
[[nodiscard]] std::string graticule(const MapView& view, int levels = 1);
/// Their degrees and decimal minutes, to be drawn over everything else.
[[nodiscard]] std::string graticule_labels(const MapView& view, int levels = 1);
/// True north.
[[nodiscard]] std::string north_arrow(const MapView& view);
/// Metres over feet, one for every level; true lengths on the ground.
[[nodiscard]] std::string scale_bars(const MapView& view, int levels = 1);
/// The hatches of the plan's rules, as pattern definitions; pattern i is "hatch-i".
[[nodiscard]] std::string hatches(const MapView& view);
/// The outlines of the closed areas of every rule, at the scale of the view, as definitions. They
/// are most of a page where there are thousands, and stand in it once for all its maps of a size.
/// name: what their ids begin with.
[[nodiscard]] std::string closed_paths(const MapView& view, std::string_view name);
/// The closed areas of every rule, from such definitions anywhere in the page: hatch and outline.
[[nodiscard]] std::string closed_shapes(const MapView& view, std::string_view name);
/// A swatch of a rule's hatch and outline, for the legend.
[[nodiscard]] std::string hatch_swatch(const MapView& view, std::size_t rule);
/// Rectangles of the sites with their numbers; each is a link to its sheet.
[[nodiscard]] std::string site_marks(const MapView& view);

/// The map with its buttons, legends and read-out. The first map is drawn as a still picture, for
/// readers without the script; page.js paints over it.
[[nodiscard]] std::string map_section(const MapView& view, const PageMaps& maps,
                                      MapWriter& pictures);
/// The other maps, small, for paper only.
[[nodiscard]] std::string maps_on_paper(const MapView& view, std::span<const CodedMap> maps,
                                        MapWriter& pictures);
/// What page.js reads: the values of every sample, as JSON.
[[nodiscard]] std::string map_json(const MapView& view, const PageMaps& maps);
/// The legend of one map.
[[nodiscard]] std::string legend(const CodedMap& map, MapWriter& pictures);
/// The legend of the closed areas and sites.
[[nodiscard]] std::string mark_legend(const MapView& view);

}  // namespace tidelot::page
