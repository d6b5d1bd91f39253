// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "tidelot/core/grid.hpp"

/// Drawing on paper: SVG whose unit is the millimetre, x to the right, y down. All in black.
namespace tidelot::sheet {

/// A place on the paper, mm.
using Spot = XY;

/// A length in mm as SVG writes it: two decimals at most.
[[nodiscard]] std::string mm(double value);

/// "M1 2L3 4L5 6", with "Z" at its end where it is closed.
[[nodiscard]] std::string way(std::span<const Spot> spots, bool closed = false);

/// Attributes of a stroke: width in mm, dashes in mm ("" solid).
struct Pen {
  double width = 0.25;
  std::string_view dashes = "";
};

/// A path: fill is "none", "#fff" or a hatch (see hatches.hpp).
[[nodiscard]] std::string path(std::string_view d, Pen pen, std::string_view fill = "none");
[[nodiscard]] std::string stroke(Spot from, Spot to, Pen pen = {});
[[nodiscard]] std::string circle(Spot middle, double radius, Pen pen = {},
                                 std::string_view fill = "#fff");
[[nodiscard]] std::string box(Spot corner, double width, double height, Pen pen = {},
                              std::string_view fill = "none");
/// A line with arrow heads at one end or both.
[[nodiscard]] std::string arrow(Spot from, Spot to, bool both, Pen pen = {0.35, ""});

/// Where a text stands to its place.
enum class Anchor { start, middle, end };
/// Words are plain text. size: height of the letters' body, mm. A white rim keeps them off what
/// they stand on. turn: degrees clockwise round the place.
[[nodiscard]] std::string words(Spot at, std::string_view plain, double size = 2.8,
                                Anchor anchor = Anchor::start, double turn = 0.0);
/// About how wide a text is, mm: of a plain sans-serif, on the wide side.
[[nodiscard]] double width_of(std::string_view plain, double size);

/// A dimension line between two places with its words in the middle, on the side of `off`.
[[nodiscard]] std::string dimension(Spot from, Spot to, std::string_view plain, double off);

/// A drawing of its own: width and height in mm, said for those who cannot see it.
[[nodiscard]] std::string drawing(double width, double height, std::string_view label,
                                  std::string_view content);

/// Takes a place for each label, so that none stands on another.
class Labels {
 public:
  Labels(double width, double height) : width_(width), height_(height) {}
  /// Keeps a box of paper free.
  void keep(Spot corner, double width, double height);
  /// Keeps the paper along a line free.
  void keep_line(Spot from, Spot to);
  /// A text near a spot, in the first of the places around it that is free, with a leader where it
  /// stands away; "" where none is.
  [[nodiscard]] std::string near(Spot spot, std::string_view plain, double size = 2.8,
                                 double gap = 1.5);
  /// A text in the middle of a spot, or "" where it would stand on another.
  [[nodiscard]] std::string on(Spot spot, std::string_view plain, double size = 2.8);

 private:
  struct Box {
    double x, y, width, height;
  };
  [[nodiscard]] bool free(const Box& box) const;
  double width_;
  double height_;
  std::vector<Box> taken_;
};

}  // namespace tidelot::sheet
