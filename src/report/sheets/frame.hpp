// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "report/sheets/paper.hpp"
#include "tidelot/report/report.hpp"

/// A part of the grid on paper, to a round scale.
namespace tidelot::sheet {

/// A box of the grid, metres.
struct Extent {
  double west = 0.0, south = 0.0, east = 0.0, north = 0.0;
};

/// The smallest round denominator (1, 1.5, 2, 2.5, 3, 4, 5, 6 or 8 times a power of ten) at which a
/// length on the ground fits a length on paper.
[[nodiscard]] double round_scale(double ground_m, double paper_mm);
/// "1 : 12 500", with thin spaces.
[[nodiscard]] std::string scale_words(double denominator);

/// How the grid lies on the paper: north of the grid up.
struct Frame {
  Extent extent;
  double denominator = 1.0;  ///< ground over paper, true in the middle of the grid
  double width = 0.0;        ///< mm
  double height = 0.0;       ///< mm
  double mm_per_m = 1.0;     ///< of the grid

  [[nodiscard]] Spot spot(XY grid) const {
    return {(grid.x - extent.west) * mm_per_m, (extent.north - grid.y) * mm_per_m};
  }
  [[nodiscard]] bool holds(XY grid) const {
    return grid.x >= extent.west && grid.x <= extent.east && grid.y >= extent.south &&
           grid.y <= extent.north;
  }
};

/// The frame of an extent on at most width x height mm.
[[nodiscard]] Frame frame_of(const Extent& extent, double grid_scale, double width, double height);
/// The same with the whole paper used: the extent grows to both sides, but not beyond `within`.
[[nodiscard]] Frame filled_frame(const Extent& extent, const Extent& within, double grid_scale,
                                 double width, double height);

[[nodiscard]] Extent extent_of(const Grid& grid);
/// Around a site's corners, `more` m to each side.
[[nodiscard]] Extent around(const Site& site, double more);

/// Bars of a round length in metres and one in feet, true at the scale; height 9 mm.
[[nodiscard]] std::string scale_bar(Spot at, double denominator);
/// An arrow to true north; turn: its direction on the paper, degrees clockwise from up.
[[nodiscard]] std::string north_arrow(Spot at, double turn);
/// The frame's border with longitudes and latitudes at ticks, in degrees and decimal minutes, and
/// crosses where they meet. corners: NW, NE, SE, SW of the grid.
[[nodiscard]] std::string graticule(const Frame& frame, const ReportData& data);

}  // namespace tidelot::sheet
