// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/water_distance.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <queue>
#include <utility>

namespace tidelot {
namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();

/// How many cells a straight stretch may be long before it gets a joint. It keeps the cost of a
/// sight line bounded; joints a little beside the line lengthen it by less than 0.3 % (tested).
constexpr int kReach = 64;

constexpr std::array<Cell, 8> kAround{
    {{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, 1}, {1, -1}, {-1, 1}, {-1, -1}}};

/// The search: Dijkstra over the cells, where a cell hangs on its predecessor's predecessor as long
/// as that one is in sight (checked when the cell's turn comes).
class Search {
 public:
  explicit Search(const Waterway& way)
      : way_(way),
        grid_(way.grid()),
        length_(grid_.size(), kFar),
        joint_(grid_.size()),
        done_(grid_.size()) {}

  void run(XY from);
  [[nodiscard]] GridVector<float> lengths() const;

 private:
  using Entry = std::pair<double, std::size_t>;

  [[nodiscard]] Cell cell(std::size_t index) const {
    const auto cols = static_cast<std::size_t>(grid_.cols);
    return {static_cast<int>(index % cols), static_cast<int>(index / cols)};
  }
  [[nodiscard]] double between(std::size_t a, std::size_t b) const {
    const Cell p = cell(a);
    const Cell q = cell(b);
    return grid_.cell_m * std::hypot(p.col - q.col, p.row - q.row);
  }
  [[nodiscard]] bool in_sight(Cell from, Cell to) const;
  void settle(std::size_t here);
  void hang_on_neighbour(std::size_t here);
  void spread(std::size_t here);

  const Waterway& way_;
  const Grid& grid_;
  GridVector<double> length_;
  GridVector<std::size_t> joint_;  ///< where the straight stretch that ends in a cell begins
  GridVector<std::uint8_t> done_;
  std::priority_queue<Entry, GridVector<Entry>, std::greater<>> queue_;
};

/// Is every cell on the straight line between two centres water?
bool Search::in_sight(Cell from, Cell to) const {
  const int nx = std::abs(to.col - from.col);
  const int ny = std::abs(to.row - from.row);
  const int sx = to.col < from.col ? -1 : 1;
  const int sy = to.row < from.row ? -1 : 1;
  Cell at = from;
  for (int ix = 0, iy = 0; ix < nx || iy < ny;) {
    // Which edge does the line leave the cell through? 0: the corner.
    const std::int64_t side = std::int64_t{1 + 2 * ix} * ny - std::int64_t{1 + 2 * iy} * nx;
    const int dx = side <= 0 ? sx : 0;
    const int dy = side >= 0 ? sy : 0;
    if (!way_.open(at, dx, dy)) {
      return false;
    }
    at = {at.col + dx, at.row + dy};
    ix += dx != 0 ? 1 : 0;
    iy += dy != 0 ? 1 : 0;
  }
  return true;
}

void Search::run(XY from) {
  const std::size_t start = way_.nearest_water(from);
  if (start == grid_.size()) {
    return;
  }
  const Cell c = cell(start);
  const XY centre = grid_.centre(c.col, c.row);
  length_[start] = std::hypot(centre.x - from.x, centre.y - from.y);
  joint_[start] = start;
  queue_.emplace(length_[start], start);
  while (!queue_.empty()) {
    const std::size_t here = queue_.top().second;
    queue_.pop();
    if (done_[here] == 0) {
      settle(here);
    }
  }
}

void Search::settle(std::size_t here) {
  if (!in_sight(cell(joint_[here]), cell(here))) {
    hang_on_neighbour(here);
  }
  done_[here] = 1;
  spread(here);
}

/// The cell was hung on a joint that it does not see: the best settled neighbour is its joint.
void Search::hang_on_neighbour(std::size_t here) {
  const Cell at = cell(here);
  length_[here] = kFar;
  for (const auto [dx, dy] : kAround) {
    if (!way_.open(at, dx, dy)) {
      continue;
    }
    const std::size_t near = grid_.index(at.col + dx, at.row + dy);
    const double length = length_[near] + between(near, here);
    if (done_[near] != 0 && length < length_[here]) {
      length_[here] = length;
      joint_[here] = near;
    }
  }
}

void Search::spread(std::size_t here) {
  const Cell at = cell(here);
  const bool far = between(joint_[here], here) > kReach * grid_.cell_m;
  const std::size_t joint = far ? here : joint_[here];
  for (const auto [dx, dy] : kAround) {
    if (!way_.open(at, dx, dy)) {
      continue;
    }
    const std::size_t next = grid_.index(at.col + dx, at.row + dy);
    const double length = length_[joint] + between(joint, next);
    if (done_[next] == 0 && length < length_[next]) {
      length_[next] = length;
      joint_[next] = joint;
      queue_.emplace(length, next);
    }
  }
}

GridVector<float> Search::lengths() const {
  GridVector<float> result(length_.size());
  for (std::size_t i = 0; i < result.size(); ++i) {
    result[i] =
        done_[i] != 0 ? static_cast<float>(length_[i]) : std::numeric_limits<float>::quiet_NaN();
  }
  return result;
}

}  // namespace

Waterway::Waterway(const Grid& grid, std::span<const float> depth)
    : grid_(grid), water_(grid.size()), steps_(grid.size()) {
  GridVector<std::uint8_t> right(grid.size());
  GridVector<std::uint8_t> below(grid.size());
  const auto cols = static_cast<std::size_t>(grid.cols);
  for (std::size_t i = 0; i < grid.size(); ++i) {
    water_[i] = depth[i] > 0.0F ? 1 : 0;
    right[i] = i % cols + 1 < cols && depth[i] > 0.0F && depth[i + 1] > 0.0F ? 1 : 0;
    below[i] = i + cols < grid.size() && depth[i] > 0.0F && depth[i + cols] > 0.0F ? 1 : 0;
  }
  find_steps(right, below);
}

Waterway::Waterway(Grid grid, GridVector<std::uint8_t> water, std::span<const std::uint8_t> right,
                   std::span<const std::uint8_t> below)
    : grid_(std::move(grid)), water_(std::move(water)), steps_(grid_.size()) {
  find_steps(right, below);
}

void Waterway::find_steps(std::span<const std::uint8_t> right,
                          std::span<const std::uint8_t> below) {
  const auto by_side = [&](Cell c, int dx, int dy) {
    const Cell first{c.col + std::min(dx, 0), c.row + std::min(dy, 0)};
    const Cell last{c.col + std::max(dx, 0), c.row + std::max(dy, 0)};
    return grid_.holds(first) && grid_.holds(last) &&
           (dx != 0 ? right : below)[grid_.index(first.col, first.row)] != 0;
  };
  for (int row = 0; row < grid_.rows; ++row) {
    for (int col = 0; col < grid_.cols; ++col) {
      unsigned steps = 0;
      for (const auto [dx, dy] : kAround) {
        const bool straight = dx == 0 || dy == 0;
        const bool can = straight
                             ? by_side({col, row}, dx, dy)
                             : (by_side({col, row}, dx, 0) && by_side({col + dx, row}, 0, dy)) ||
                                   (by_side({col, row}, 0, dy) && by_side({col, row + dy}, dx, 0));
        steps |= can ? 1U << direction(dx, dy) : 0U;
      }
      steps_[grid_.index(col, row)] = static_cast<std::uint8_t>(steps);
    }
  }
}

std::size_t Waterway::nearest_water(XY place) const {
  std::size_t best = grid_.size();
  double best_distance = kFar;
  for (int row = 0; row < grid_.rows; ++row) {
    for (int col = 0; col < grid_.cols; ++col) {
      const XY centre = grid_.centre(col, row);
      const double distance = std::hypot(centre.x - place.x, centre.y - place.y);
      if (distance < best_distance && water(grid_.index(col, row))) {
        best = grid_.index(col, row);
        best_distance = distance;
      }
    }
  }
  return best;
}

GridVector<float> water_distance(const Waterway& way, XY from) {
  Search search(way);
  search.run(from);
  return search.lengths();
}

}  // namespace tidelot
