// SPDX-License-Identifier: Apache-2.0
#include "report/sheets/regions.hpp"

#include <algorithm>
#include <array>

namespace tidelot::sheet {
namespace {

/// East, south, west, north.
constexpr std::array<Corner, 4> kSteps{{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}};

/// Edges of cells with the wanted code on their right; one bit a direction that leaves a corner.
class Edges {
 public:
  Edges(int cols, int rows, std::span<const std::uint8_t> codes, std::uint8_t wanted)
      : cols_(cols),
        bits_(static_cast<std::size_t>(cols + 1) * static_cast<std::size_t>(rows + 1)) {
    const auto is = [&](int col, int row) {
      return col >= 0 && row >= 0 && col < cols && row < rows &&
             codes[static_cast<std::size_t>(row) * static_cast<std::size_t>(cols) +
                   static_cast<std::size_t>(col)] == wanted;
    };
    for (int row = 0; row < rows; ++row) {
      for (int col = 0; col < cols; ++col) {
        if (is(col, row)) {
          add(!is(col, row - 1), {col, row}, 0);
          add(!is(col + 1, row), {col + 1, row}, 1);
          add(!is(col, row + 1), {col + 1, row + 1}, 2);
          add(!is(col - 1, row), {col, row + 1}, 3);
        }
      }
    }
  }

  [[nodiscard]] std::size_t size() const { return bits_.size(); }
  [[nodiscard]] Corner corner(std::size_t i) const {
    return {static_cast<int>(i) % (cols_ + 1), static_cast<int>(i) / (cols_ + 1)};
  }
  /// The lowest direction that still leaves a corner, or -1.
  [[nodiscard]] int first(std::size_t i) const {
    for (int way = 0; way < 4; ++way) {
      if ((bits_[i] >> way & 1U) != 0U) {
        return way;
      }
    }
    return -1;
  }
  /// Takes the ring that leaves a corner in a direction. Where two rings meet at a corner it turns
  /// right, and so stays with its own cell.
  [[nodiscard]] Ring take(Corner at, int way) {
    Ring ring;
    const Corner start = at;
    int last = -1;
    do {
      if (way != last) {
        ring.push_back(at);
      }
      bits_[index(at)] &= static_cast<std::uint8_t>(~(1U << way));
      at = {at.col + kSteps[static_cast<std::size_t>(way)].col,
            at.row + kSteps[static_cast<std::size_t>(way)].row};
      last = way;
      way = next(at, way);
    } while (way >= 0 && !(at == start));
    return ring;
  }

 private:
  [[nodiscard]] std::size_t index(Corner at) const {
    return static_cast<std::size_t>(at.row) * static_cast<std::size_t>(cols_ + 1) +
           static_cast<std::size_t>(at.col);
  }
  void add(bool there, Corner from, int way) {
    if (there) {
      bits_[index(from)] |= static_cast<std::uint8_t>(1U << way);
    }
  }
  [[nodiscard]] int next(Corner at, int way) const {
    for (const int turn : {1, 0, 3}) {
      const int candidate = (way + turn) % 4;
      if ((bits_[index(at)] >> candidate & 1U) != 0U) {
        return candidate;
      }
    }
    return -1;
  }

  int cols_;
  std::vector<std::uint8_t> bits_;
};

}  // namespace

std::vector<Ring> outlines(int cols, int rows, std::span<const std::uint8_t> codes,
                           std::uint8_t wanted) {
  Edges edges(cols, rows, codes, wanted);
  std::vector<Ring> rings;
  for (std::size_t i = 0; i < edges.size(); ++i) {
    for (int way = edges.first(i); way >= 0; way = edges.first(i)) {
      rings.push_back(edges.take(edges.corner(i), way));
    }
  }
  return rings;
}

Middle middle_of(int cols, int rows, std::span<const std::uint8_t> codes, std::uint8_t wanted) {
  // Two passes of a city-block distance, the edge of the paper counting as another code.
  std::vector<int> reach(codes.size(), 0);
  const auto at = [&](int col, int row) {
    return col < 0 || row < 0 || col >= cols || row >= rows
               ? 0
               : reach[static_cast<std::size_t>(row) * static_cast<std::size_t>(cols) +
                       static_cast<std::size_t>(col)];
  };
  const auto set = [&](int col, int row, int before, int beside) {
    const std::size_t i = static_cast<std::size_t>(row) * static_cast<std::size_t>(cols) +
                          static_cast<std::size_t>(col);
    if (codes[i] == wanted) {
      const int found = std::min(before, beside) + 1;
      reach[i] = reach[i] == 0 ? found : std::min(reach[i], found);
    }
  };
  for (int row = 0; row < rows; ++row) {
    for (int col = 0; col < cols; ++col) {
      set(col, row, at(col - 1, row), at(col, row - 1));
    }
  }
  for (int row = rows - 1; row >= 0; --row) {
    for (int col = cols - 1; col >= 0; --col) {
      set(col, row, at(col + 1, row), at(col, row + 1));
    }
  }
  const auto best = std::max_element(reach.begin(), reach.end());
  if (best == reach.end() || *best == 0) {
    return {};
  }
  const auto i = static_cast<int>(best - reach.begin());
  const int row = i / cols;
  return {i % cols + 0.5, row + 0.5, static_cast<double>(*best)};
}

}  // namespace tidelot::sheet
