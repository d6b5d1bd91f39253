// SPDX-License-Identifier: Apache-2.0
#include "plan/own_boxes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "plan/array_check.hpp"
#include "plan/node_text.hpp"
#include "tidelot/core/grid.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::planfile {
namespace {

using Checked = std::optional<Problem>;

constexpr std::size_t kCorners = 4;
constexpr std::size_t kMostBoxes = 20;
constexpr double kMetresPerDegree = 111'200.0;  // of latitude; good enough to tell a sliver
constexpr double kLeastSide_m = 1.0;
constexpr double kLeastArea_m2 = 100.0;
constexpr double kSharpest_deg = 5.0;
constexpr double kFlattest_deg = 175.0;

/// A box in metres about its first corner; lon, lat come in.
std::array<XY, kCorners> in_metres(const std::array<XY, kCorners>& degrees) {
  const double along = kMetresPerDegree * std::cos(degrees[0].y * std::numbers::pi / 180.0);
  std::array<XY, kCorners> out{};
  for (std::size_t i = 0; i < kCorners; ++i) {
    out[i] = {(degrees[i].x - degrees[0].x) * along,
              (degrees[i].y - degrees[0].y) * kMetresPerDegree};
  }
  return out;
}

double cross(XY a, XY b) { return a.x * b.y - a.y * b.x; }

/// From each corner to the next.
std::array<XY, kCorners> sides_of(const std::array<XY, kCorners>& corners) {
  std::array<XY, kCorners> sides{};
  for (std::size_t i = 0; i < kCorners; ++i) {
    const XY next = corners[(i + 1) % kCorners];
    sides[i] = {next.x - corners[i].x, next.y - corners[i].y};
  }
  return sides;
}

/// What is wrong with a side; "" where nothing is.
std::string short_side(const std::array<XY, kCorners>& sides) {
  for (std::size_t i = 0; i < kCorners; ++i) {
    const double length = std::hypot(sides[i].x, sides[i].y);
    if (length < kLeastSide_m) {
      return fmt::format("corners {} and {} lie {} m apart; a side is {} m long at least", i + 1,
                         (i + 1) % kCorners + 1, fixed(length, 2), shortest(kLeastSide_m));
    }
  }
  return "";
}

/// What is wrong with the way round: sides that cross, or a corner that points inward.
std::string wrong_turn(const std::array<XY, kCorners>& sides) {
  std::array<bool, kCorners> left{};
  for (std::size_t i = 0; i < kCorners; ++i) {
    left[i] = cross(sides[(i + kCorners - 1) % kCorners], sides[i]) > 0.0;
  }
  const auto lefts = std::count(left.begin(), left.end(), true);
  if (lefts == 2) {
    return "its sides cross; give the corners in order round the box";
  }
  if (lefts == 1 || lefts == 3) {
    const auto inward = std::find(left.begin(), left.end(), lefts == 1);
    return fmt::format(
        "corner {} points inward; a box bulges at every corner: move it, or part "
        "the box into two",
        inward - left.begin() + 1);
  }
  return "";
}

/// What is wrong with the angle of a corner.
std::string wrong_angle(const std::array<XY, kCorners>& sides) {
  for (std::size_t i = 0; i < kCorners; ++i) {
    const XY in = sides[(i + kCorners - 1) % kCorners];
    const XY out = sides[i];
    const double turn = std::atan2(std::abs(cross(in, out)), in.x * out.x + in.y * out.y);
    const double angle = 180.0 - turn * 180.0 / std::numbers::pi;
    if (angle < kSharpest_deg || angle > kFlattest_deg) {
      return fmt::format("the angle at corner {} is {} degrees; it must be from {} to {}", i + 1,
                         fixed(angle, 1), shortest(kSharpest_deg), shortest(kFlattest_deg));
    }
  }
  return "";
}

std::string shape_fault(const std::array<XY, kCorners>& degrees) {
  const std::array<XY, kCorners> corners = in_metres(degrees);
  const std::array<XY, kCorners> sides = sides_of(corners);
  for (const auto look : {short_side, wrong_turn, wrong_angle}) {
    if (std::string fault = look(sides); !fault.empty()) {
      return fault;
    }
  }
  const double area = std::abs(cross({corners[2].x - corners[0].x, corners[2].y - corners[0].y},
                                     {corners[3].x - corners[1].x, corners[3].y - corners[1].y})) /
                      2.0;
  return area < kLeastArea_m2 ? fmt::format("it holds {} m2; {} m2 is the least", fixed(area, 0),
                                            shortest(kLeastArea_m2))
                              : "";
}

Checked check_box(const std::string& name, const toml::array& box) {
  if (box.size() != kCorners) {
    return Problem{box.source().begin,
                   fmt::format("{} must be four corners [[lon, lat], ...] in order round the box, "
                               "not {}",
                               name, box.size())};
  }
  std::array<XY, kCorners> degrees{};
  for (std::size_t i = 0; i < kCorners; ++i) {
    const toml::node& corner = *box.get(i);
    Key place{};
    place.kind = Kind::lon_lat;
    if (Checked problem = check_array(place, name, corner)) {
      return problem;
    }
    degrees[i] = {*finite_number(*corner.as_array()->get(0)),
                  *finite_number(*corner.as_array()->get(1))};
  }
  const std::string fault = shape_fault(degrees);
  return fault.empty() ? Checked() : Problem{box.source().begin, name + ": " + fault};
}

}  // namespace

std::vector<const toml::array*> boxes_in(const toml::node& value) {
  const auto first_of = [](const toml::array* array) {
    return array != nullptr && !array->empty() ? array->get(0)->as_array() : nullptr;
  };
  const toml::array* all = value.as_array();
  const toml::array* first = first_of(all);
  if (first == nullptr) {
    return {};
  }
  if (first_of(first) == nullptr) {
    return {all};
  }
  std::vector<const toml::array*> boxes;
  for (const toml::node& node : *all) {
    if (!node.is_array()) {
      return {};
    }
    boxes.push_back(node.as_array());
  }
  return boxes;
}

Checked check_boxes(const std::string& name, const toml::node& value) {
  const std::vector<const toml::array*> boxes = boxes_in(value);
  if (boxes.empty()) {
    return Problem{value.source().begin,
                   fmt::format("{} must be the four corners of a box, [[lon, lat], [lon, lat], "
                               "[lon, lat], [lon, lat]], or a list of such boxes, not {}",
                               name, shown(value))};
  }
  if (boxes.size() > kMostBoxes) {
    return Problem{value.source().begin,
                   fmt::format("{} holds {} boxes, {} at most", name, boxes.size(), kMostBoxes)};
  }
  const bool one = boxes.front() == value.as_array();
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    if (Checked problem = check_box(one ? name : fmt::format("{}[{}]", name, i), *boxes[i])) {
      return problem;
    }
  }
  return std::nullopt;
}

}  // namespace tidelot::planfile
