// SPDX-License-Identifier: Apache-2.0
#include "report/sheets/paper.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "report/words/html.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::sheet {
namespace {

std::string pen_words(Pen pen) {
  return fmt::format(
      " stroke-width=\"{}\"{}", mm(pen.width),
      pen.dashes.empty() ? std::string() : fmt::format(" stroke-dasharray=\"{}\"", pen.dashes));
}

/// The filled triangle of an arrow that arrives at a spot.
std::string head(Spot from, Spot to) {
  const double turn = std::atan2(to.y - from.y, to.x - from.x) * 180.0 / std::numbers::pi;
  return fmt::format(
      "<path class=\"full\" transform=\"translate({} {})rotate({})\" d=\"M0 0L-2.6 1L-2.6 -1Z\"/>",
      mm(to.x), mm(to.y), mm(turn));
}

/// Characters of a UTF-8 text, not bytes.
std::size_t letters(std::string_view plain) {
  return static_cast<std::size_t>(std::count_if(plain.begin(), plain.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  }));
}

}  // namespace

std::string mm(double value) {
  std::string out = fixed(value, 2);
  while (out.back() == '0') {
    out.pop_back();
  }
  if (out.back() == '.') {
    out.pop_back();
  }
  return out;
}

std::string way(std::span<const Spot> spots, bool closed) {
  std::string d;
  for (const Spot& spot : spots) {
    d += fmt::format("{}{} {}", d.empty() ? 'M' : 'L', mm(spot.x), mm(spot.y));
  }
  return closed ? d + "Z" : d;
}

std::string path(std::string_view d, Pen pen, std::string_view fill) {
  return fmt::format("<path d=\"{}\" fill=\"{}\"{}/>", d, fill, pen_words(pen));
}

std::string stroke(Spot from, Spot to, Pen pen) {
  const std::array<Spot, 2> ends{from, to};
  return path(way(ends), pen);
}

std::string circle(Spot middle, double radius, Pen pen, std::string_view fill) {
  return fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\" fill=\"{}\"{}/>", mm(middle.x),
                     mm(middle.y), mm(radius), fill, pen_words(pen));
}

std::string box(Spot corner, double width, double height, Pen pen, std::string_view fill) {
  return fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"{}\"{}/>",
                     mm(corner.x), mm(corner.y), mm(width), mm(height), fill, pen_words(pen));
}

std::string arrow(Spot from, Spot to, bool both, Pen pen) {
  return stroke(from, to, pen) + head(from, to) + (both ? head(to, from) : "");
}

std::string words(Spot at, std::string_view plain, double size, Anchor anchor, double turn) {
  static constexpr std::array<std::string_view, 3> kAnchors{"start", "middle", "end"};
  return fmt::format(
      "<text x=\"{0}\" y=\"{1}\" font-size=\"{2}\" text-anchor=\"{3}\"{4}>{5}</text>", mm(at.x),
      mm(at.y), mm(size), kAnchors[static_cast<std::size_t>(anchor)],
      turn == 0.0 ? std::string()
                  : fmt::format(" transform=\"rotate({} {} {})\"", mm(turn), mm(at.x), mm(at.y)),
      page::text(plain));
}

double width_of(std::string_view plain, double size) {
  return 0.58 * size * static_cast<double>(letters(plain));
}

std::string dimension(Spot from, Spot to, std::string_view plain, double off) {
  const double length = std::max(1e-9, std::hypot(to.x - from.x, to.y - from.y));
  const Spot side{-(to.y - from.y) / length * off, (to.x - from.x) / length * off};
  const Spot a{from.x + side.x, from.y + side.y};
  const Spot b{to.x + side.x, to.y + side.y};
  double turn = std::atan2(b.y - a.y, b.x - a.x) * 180.0 / std::numbers::pi;
  turn = turn > 90.0 ? turn - 180.0 : turn <= -90.0 ? turn + 180.0 : turn;
  const double up = turn * std::numbers::pi / 180.0;
  const Spot middle{(a.x + b.x) / 2 + std::sin(up), (a.y + b.y) / 2 - std::cos(up)};
  return stroke(from, a, {0.15, ""}) + stroke(to, b, {0.15, ""}) + arrow(a, b, true, {0.2, ""}) +
         words(middle, plain, 2.6, Anchor::middle, turn);
}

std::string drawing(double width, double height, std::string_view label, std::string_view content) {
  return fmt::format(
      "<svg class=\"drawing\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} {1}\" "
      "role=\"img\" aria-label=\"{2}\">{3}</svg>",
      mm(width), mm(height), page::text(label), content);
}

void Labels::keep(Spot corner, double width, double height) {
  taken_.push_back({corner.x, corner.y, width, height});
}

void Labels::keep_line(Spot from, Spot to) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  const int steps = std::max(1, static_cast<int>(length / 1.2));
  for (int i = 0; i <= steps; ++i) {
    const double share = static_cast<double>(i) / steps;
    keep({from.x + share * (to.x - from.x) - 0.4, from.y + share * (to.y - from.y) - 0.4}, 0.8,
         0.8);
  }
}

bool Labels::free(const Box& box) const {
  if (box.x < 0.5 || box.y < 0.5 || box.x + box.width > width_ - 0.5 ||
      box.y + box.height > height_ - 0.5) {
    return false;
  }
  return std::none_of(taken_.begin(), taken_.end(), [&](const Box& other) {
    return box.x < other.x + other.width && other.x < box.x + box.width &&
           box.y < other.y + other.height && other.y < box.y + box.height;
  });
}

std::string Labels::near(Spot spot, std::string_view plain, double size, double gap) {
  const double width = 1.15 * width_of(plain, size);  // it may be bold
  for (const double reach : {gap, gap + 2.5, gap + 6.0, gap + 12.0, gap + 20.0}) {
    for (int way_round = 0; way_round < 8; ++way_round) {
      const double angle = (way_round * 45.0 - 45.0) * std::numbers::pi / 180.0;
      const double across = std::cos(angle);
      const double down = std::sin(angle);
      const Box box{spot.x + across * reach -
                        (across < -0.1  ? width
                         : across > 0.1 ? 0.0
                                        : width / 2),
                    spot.y + down * reach -
                        (down < -0.1  ? size
                         : down > 0.1 ? 0.0
                                      : size / 2),
                    width, size * 1.15};
      if (!free(box)) {
        continue;
      }
      keep({box.x - 0.8, box.y - 0.5}, box.width + 1.6, box.height + 1.0);
      const std::string text = words({box.x, box.y + size * 0.85}, plain, size);
      const Spot end{std::clamp(spot.x, box.x, box.x + width),
                     std::clamp(spot.y, box.y, box.y + size)};
      return reach > gap + 3.0 ? stroke(spot, end, {0.15, ""}) + text : text;
    }
  }
  return "";
}

std::string Labels::on(Spot spot, std::string_view plain, double size) {
  const double width = width_of(plain, size);
  const Box box{spot.x - width / 2, spot.y - size / 2, width, size * 1.15};
  if (!free(box)) {
    return "";
  }
  keep({box.x - 0.8, box.y - 0.5}, box.width + 1.6, box.height + 1.0);
  return words({spot.x, spot.y + size * 0.36}, plain, size, Anchor::middle);
}

}  // namespace tidelot::sheet
