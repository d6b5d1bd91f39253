// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <algorithm>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "report/sheets/frame.hpp"
#include "tidelot/core/grid_vector.hpp"
#include "tidelot/report/report.hpp"

/// What lies on the ground, drawn in a frame: samples of the maps as areas, shapes, sites.
namespace tidelot::sheet {

/// Samples of the grid under a frame: as fine as the paper shows (0.5 mm) or as the grid is.
struct Samples {
  int cols = 0;
  int rows = 0;
  double side_mm = 0.5;
  Spot first;                      ///< upper left corner of the first on the paper
  std::vector<std::size_t> cells;  ///< of the grid; size_t(-1) outside
  static constexpr auto kNone = static_cast<std::size_t>(-1);

  /// Calls look(cell), row by row.
  template <typename Look>
  void each(const Look& look) const {
    // Of a few maps at once; what lies between two samples comes into memory with them.
    constexpr std::size_t kBytesOfCell = 3 * sizeof(float);
    std::size_t before = 0;
    for (const std::size_t cell : cells) {
      if (cell != kNone) {
        walked_over((std::max(cell, before) - std::min(cell, before)) * kBytesOfCell);
        before = cell;
      }
      look(cell);
    }
  }
};
[[nodiscard]] Samples samples_of(const Frame& frame, const Grid& grid);
/// A code for each sample; outside of the grid `outside`.
[[nodiscard]] std::vector<std::uint8_t> coded(
    const Samples& samples, const std::function<std::uint8_t(std::size_t cell)>& code,
    std::uint8_t outside);

/// The areas of a code, filled and with an outline (pen of width 0: none).
[[nodiscard]] std::string area(const Samples& samples, std::span<const std::uint8_t> codes,
                               std::uint8_t code, std::string_view fill, Pen pen);

/// Land with the low-water line, and water of which the depth is not known.
[[nodiscard]] std::string land_and_unknown(const Frame& frame, const ReportData& data);

/// A shape: areas with a fill, lines, points as diamonds; all with the pen on a white casing.
[[nodiscard]] std::string shape(const Frame& frame, const Shape& shape, std::string_view fill,
                                Pen pen);
/// A place inside a shape that lies in the frame, for its label; none where it lies outside.
[[nodiscard]] std::optional<Spot> label_spot(const Frame& frame, const Shape& shape);

/// The boundary of a site.
[[nodiscard]] std::string boundary(const Frame& frame, const Site& site, Pen pen = {0.6, ""});
/// The sites as boxes (a star where they are too small to see) with their names.
[[nodiscard]] std::string site_marks(const Frame& frame, const ReportData& data, Labels& labels);
/// A point with distance and bearing from an origin of the grid, on the ground and true.
[[nodiscard]] XY off_from(XY origin, const Direction& way, const ReportData& data);

/// Puts content into the frame: nothing is drawn beyond its border.
[[nodiscard]] std::string clipped(const Frame& frame, std::string_view id,
                                  std::string_view content);

inline constexpr double kFurniture = 16.5;  ///< mm

/// A map: content clipped, ticks and border, north arrow and scale bar below it. They
/// take kFurniture below the frame.
[[nodiscard]] std::string map_drawing(const Frame& frame, const ReportData& data,
                                      std::string_view id, std::string_view label,
                                      std::string_view content, std::string_view above);

/// The site in its bay: a small map with an arrow and a scale of its own, for sheets that show no
/// map.
[[nodiscard]] std::string key_map(const Site& site, const ReportData& data, std::string_view id,
                                  double width, double height);

}  // namespace tidelot::sheet
