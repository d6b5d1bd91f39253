// SPDX-License-Identifier: Apache-2.0
#include "tidelot/sites/water_distance.hpp"

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
  Search(const Grid& grid, std::span<const float> depth)
      : grid_(grid),
        depth_(depth),
        length_(grid.size(), kFar),
        joint_(grid.size()),
        done_(grid.size(), 0) {}

  void run(XY from);
  [[nodiscard]] std::vector<float> lengths() const;

 private:
  using Entry = std::pair<double, std::size_t>;

  [[nodiscard]] bool water(Cell c) const { return depth_[grid_.index(c.col, c.row)] > 0.0F; }
  [[nodiscard]] Cell cell(std::size_t index) const {
    const auto cols = static_cast<std::size_t>(grid_.cols);
    return {static_cast<int>(index % cols), static_cast<int>(index / cols)};
  }
  [[nodiscard]] double between(std::size_t a, std::size_t b) const {
    const Cell p = cell(a);
    const Cell q = cell(b);
    return grid_.cell_m * std::hypot(p.col - q.col, p.row - q.row);
  }
  [[nodiscard]] bool open_step(Cell from, int dx, int dy) const;
  [[nodiscard]] bool in_sight(Cell from, Cell to) const;
  [[nodiscard]] std::size_t nearest_water(XY from) const;
  void settle(std::size_t here);
  void hang_on_neighbour(std::size_t here);
  void spread(std::size_t here);

  const Grid& grid_;
  std::span<const float> depth_;
  std::vector<double> length_;
  std::vector<std::size_t> joint_;  ///< where the straight stretch that ends in a cell begins
  std::vector<std::uint8_t> done_;
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue_;
};

/// May one go from a cell to one beside it? Across a corner, one of the two cells there must be
/// water: land that only touches at a corner still shuts a pool in.
bool Search::open_step(Cell from, int dx, int dy) const {
  const Cell to{from.col + dx, from.row + dy};
  if (!grid_.holds(to) || !water(to)) {
    return false;
  }
  return dx == 0 || dy == 0 || water({from.col + dx, from.row}) || water({from.col, from.row + dy});
}

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
    if (!open_step(at, dx, dy)) {
      return false;
    }
    at = {at.col + dx, at.row + dy};
    ix += dx != 0 ? 1 : 0;
    iy += dy != 0 ? 1 : 0;
  }
  return true;
}

/// grid_.size() when there is no water at all. The first in row order on a tie.
std::size_t Search::nearest_water(XY from) const {
  std::size_t best = grid_.size();
  double best_distance = kFar;
  for (std::size_t i = 0; i < grid_.size(); ++i) {
    const Cell c = cell(i);
    const XY centre = grid_.centre(c.col, c.row);
    const double distance = std::hypot(centre.x - from.x, centre.y - from.y);
    if (distance < best_distance && water(c)) {
      best = i;
      best_distance = distance;
    }
  }
  return best;
}

void Search::run(XY from) {
  const std::size_t start = nearest_water(from);
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
    if (!open_step(at, dx, dy)) {
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
    if (!open_step(at, dx, dy)) {
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

std::vector<float> Search::lengths() const {
  std::vector<float> result(length_.size());
  for (std::size_t i = 0; i < result.size(); ++i) {
    result[i] =
        done_[i] != 0 ? static_cast<float>(length_[i]) : std::numeric_limits<float>::quiet_NaN();
  }
  return result;
}

}  // namespace

std::vector<float> water_distance(const Grid& grid, std::span<const float> depth, XY from) {
  Search search(grid, depth);
  search.run(from);
  return search.lengths();
}

}  // namespace tidelot
