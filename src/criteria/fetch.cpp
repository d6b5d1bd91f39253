// SPDX-License-Identifier: Apache-2.0
#include "tidelot/criteria/fetch.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace tidelot {
namespace {

constexpr double kRadian = std::numbers::pi / 180.0;

/// A block of values with rows along x and, down them, the direction in which lines are walked.
struct Field {
  int cols = 0;
  int rows = 0;
  std::span<const float> depth;
};

/// Lines with the wind: down the rows (or up them), aside by less than a column a row.
struct Course {
  bool down = true;
  double aside = 0.0;  ///< columns a row, -1..1, in the order of walking
  double step_m = 0.0;
  double beyond_m = 0.0;
};

/// What a line has crossed since the last land.
struct Line {
  double fetch_m;
  double depth_sum_m;
  double depths;
};

void step_cell(const Course& course, float depth, Line& line, float& fetch, float& mean) {
  if (depth <= 0.0F) {
    line = {-0.5 * course.step_m, 0.0, 0.0};
    fetch = 0.0F;
    mean = std::numeric_limits<float>::quiet_NaN();
    return;
  }
  line.fetch_m += course.step_m;
  if (!std::isnan(depth)) {
    line.depth_sum_m += depth;
    line.depths += 1.0;
  }
  fetch = static_cast<float>(line.fetch_m);
  mean = static_cast<float>(line.depth_sum_m / line.depths);  // NaN where none is known
}

void walk(const Field& field, const Course& course, std::span<float> fetch_m,
          std::span<float> mean_depth_m) {
  const Line open{course.beyond_m - 0.5 * course.step_m, 0.0, 0.0};
  const int reach = static_cast<int>(std::lround(std::abs(course.aside) * field.rows)) + 1;
  std::vector<Line> lines(static_cast<std::size_t>(field.cols + 2 * reach), open);
  for (int i = 0; i < field.rows; ++i) {
    const int row = course.down ? i : field.rows - 1 - i;
    const int shift = static_cast<int>(std::lround(course.aside * i));
    const std::size_t first = static_cast<std::size_t>(row) * static_cast<std::size_t>(field.cols);
    Line* const line = lines.data() + reach - shift;
    for (int col = 0; col < field.cols; ++col) {
      const std::size_t at = first + static_cast<std::size_t>(col);
      step_cell(course, field.depth[at], line[col], fetch_m[at], mean_depth_m[at]);
    }
  }
}

/// Rows and columns changed, in squares that fit the cache.
template <typename From, typename To>
void turn(int cols, int rows, const From& from, To& to) {
  constexpr int kSquare = 32;
  for (int row0 = 0; row0 < rows; row0 += kSquare) {
    for (int col0 = 0; col0 < cols; col0 += kSquare) {
      const int row1 = std::min(row0 + kSquare, rows);
      const int col1 = std::min(col0 + kSquare, cols);
      for (int row = row0; row < row1; ++row) {
        for (int col = col0; col < col1; ++col) {
          to[static_cast<std::size_t>(col) * static_cast<std::size_t>(rows) +
             static_cast<std::size_t>(row)] =
              from[static_cast<std::size_t>(row) * static_cast<std::size_t>(cols) +
                   static_cast<std::size_t>(col)];
        }
      }
    }
  }
}

double weighted(std::span<const double> radials, double step_deg, int power) {
  double sum = 0.0;
  double weight = 0.0;
  const double middle = 0.5 * (static_cast<double>(radials.size()) - 1.0);
  for (std::size_t i = 0; i < radials.size(); ++i) {
    const double cosine = std::cos((static_cast<double>(i) - middle) * step_deg * kRadian);
    sum += radials[i] * std::pow(cosine, power);
    weight += cosine;
  }
  return sum / weight;
}

}  // namespace

FetchSweep::FetchSweep(const Grid& grid, std::span<const float> depth_m)
    : grid_(grid), depth_m_(depth_m), turned_(depth_m.size()) {
  turn(grid.cols, grid.rows, depth_m_, turned_);
}

void FetchSweep::operator()(double from_deg, double beyond_m, std::span<float> fetch_m,
                            std::span<float> mean_depth_m) const {
  const double east = -std::sin(from_deg * kRadian);  // of the way the wind blows
  const double south = std::cos(from_deg * kRadian);
  if (std::abs(south) >= std::abs(east)) {
    const Course course{south > 0.0, east / std::abs(south), grid_.cell_m / std::abs(south),
                        beyond_m};
    walk({grid_.cols, grid_.rows, depth_m_}, course, fetch_m, mean_depth_m);
    return;
  }
  const Course course{east > 0.0, south / std::abs(east), grid_.cell_m / std::abs(east), beyond_m};
  GridVector<float> fetch(turned_.size());
  GridVector<float> mean(turned_.size());
  walk({grid_.rows, grid_.cols, turned_}, course, fetch, mean);
  turn(grid_.rows, grid_.cols, fetch, fetch_m);
  turn(grid_.rows, grid_.cols, mean, mean_depth_m);
}

double effective_fetch(std::span<const double> radials, double step_deg) {
  return weighted(radials, step_deg, 1);
}

double effective_fetch_projected(std::span<const double> radials, double step_deg) {
  return weighted(radials, step_deg, 2);
}

}  // namespace tidelot
