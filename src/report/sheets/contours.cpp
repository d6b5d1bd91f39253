// SPDX-License-Identifier: Apache-2.0
#include "report/sheets/contours.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>

#include "tidelot/core/geometry.hpp"

namespace tidelot::sheet {
namespace {

/// An edge between two neighbouring samples: its first sample, and whether it runs down.
using Edge = std::uint64_t;
Edge edge_at(std::size_t sample, bool down) { return sample * 2 + (down ? 1 : 0); }

class Squares {
 public:
  Squares(int cols, std::span<const float> samples, double level)
      : cols_(static_cast<std::size_t>(cols)), samples_(samples), level_(level) {}

  /// Joins the edges that the line crosses in the square to the lower right of a sample.
  void add(std::size_t i) {
    const std::array<std::size_t, 4> at{i, i + 1, i + cols_ + 1, i + cols_};
    const std::array<Edge, 4> edges{edge_at(at[0], false), edge_at(at[1], true),
                                    edge_at(at[3], false), edge_at(at[0], true)};
    std::array<bool, 4> above{};
    double mean = 0.0;
    for (std::size_t k = 0; k < 4; ++k) {
      if (std::isnan(samples_[at[k]])) {
        return;
      }
      above[k] = samples_[at[k]] >= level_;
      mean += samples_[at[k]] / 4.0;
    }
    std::vector<Edge> crossed;
    for (std::size_t k = 0; k < 4; ++k) {
      if (above[k] != above[(k + 1) % 4]) {
        crossed.push_back(edges[k]);
      }
    }
    // A saddle: top with right and bottom with left, unless its middle is not as its first corner.
    if (crossed.size() == 4 && (mean >= level_) != above[0]) {
      std::rotate(crossed.begin(), crossed.begin() + 3, crossed.end());
    }
    for (std::size_t k = 0; k + 1 < crossed.size(); k += 2) {
      join(crossed[k], crossed[k + 1]);
    }
  }

  [[nodiscard]] std::vector<Isoline> lines() {
    std::vector<Isoline> out;
    for (const bool ends_first : {true, false}) {
      for (const auto& [edge, beside] : joined_) {
        if (!used(edge) && (!ends_first || beside.size() == 1)) {
          out.push_back(follow(edge));
        }
      }
    }
    return out;
  }

 private:
  void join(Edge a, Edge b) {
    joined_[a].push_back(b);
    joined_[b].push_back(a);
  }
  [[nodiscard]] bool used(Edge edge) const { return used_.contains(edge); }
  [[nodiscard]] XY place(Edge edge) const {
    const std::size_t a = edge / 2;
    const bool down = edge % 2 == 1;
    const double from = samples_[a];
    const double to = samples_[down ? a + cols_ : a + 1];
    const double share = (level_ - from) / (to - from);
    const std::size_t row = a / cols_;
    const XY at{static_cast<double>(a % cols_), static_cast<double>(row)};
    return down ? XY{at.x, at.y + share} : XY{at.x + share, at.y};
  }
  [[nodiscard]] Isoline follow(Edge edge) {
    Isoline line;
    const Edge start = edge;
    for (bool more = true; more;) {
      used_[edge] = true;
      line.push_back(place(edge));
      more = false;
      for (const Edge next : joined_[edge]) {
        if (!used(next)) {
          edge = next;
          more = true;
          break;
        }
      }
    }
    const std::vector<Edge>& last = joined_[edge];
    if (line.size() > 2 && std::find(last.begin(), last.end(), start) != last.end()) {
      line.push_back(line.front());
    }
    return line;
  }

  std::size_t cols_;
  std::span<const float> samples_;
  double level_;
  std::map<Edge, std::vector<Edge>> joined_;
  std::map<Edge, bool> used_;
};

void keep_far(const Isoline& line, std::size_t first, std::size_t last, double tolerance,
              std::vector<bool>& kept) {
  double most = 0.0;
  std::size_t where = first;
  for (std::size_t i = first + 1; i < last; ++i) {
    const double off = distance_to_segment(line[i], line[first], line[last]);
    if (off > most) {
      most = off;
      where = i;
    }
  }
  if (most > tolerance) {
    kept[where] = true;
    keep_far(line, first, where, tolerance, kept);
    keep_far(line, where, last, tolerance, kept);
  }
}

}  // namespace

std::vector<Isoline> isolines(int cols, int rows, std::span<const float> samples, double level) {
  Squares squares(cols, samples, level);
  for (int row = 0; row + 1 < rows; ++row) {
    for (int col = 0; col + 1 < cols; ++col) {
      squares.add(static_cast<std::size_t>(row) * static_cast<std::size_t>(cols) +
                  static_cast<std::size_t>(col));
    }
  }
  return squares.lines();
}

double contour_step(double low, double high, int most) {
  double step = 1.0;
  for (double power = 1.0; power < 1e6; power *= 10.0) {
    for (const double each : {1.0, 2.0, 5.0}) {
      step = each * power;
      if (std::floor(high / step) - std::ceil(low / step) + 1.0 <= most) {
        return step;
      }
    }
  }
  return step;
}

Isoline thinned(const Isoline& line, double tolerance) {
  if (line.size() < 3) {
    return line;
  }
  std::vector<bool> kept(line.size(), false);
  kept.front() = kept.back() = true;
  keep_far(line, 0, line.size() - 1, tolerance, kept);
  Isoline out;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (kept[i]) {
      out.push_back(line[i]);
    }
  }
  return out;
}

}  // namespace tidelot::sheet
