// SPDX-License-Identifier: Apache-2.0
#include "tidelot/layers/curvilinear.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace tidelot {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
/// A quadrilateral wider than this is one across a pole or a seam of the grid, and is left out.
constexpr double kWidest_deg = 90.0;
/// Places on the side that two quadrilaterals share belong to both.
constexpr double kSlack = 1e-9;

/// The longitude next to another one.
double near(double lon, double other) { return lon - 360.0 * std::round((lon - other) / 360.0); }

double cross(XY a, XY b) { return a.x * b.y - a.y * b.x; }

XY minus(XY a, XY b) { return {a.x - b.x, a.y - b.y}; }

bool is_share(double v) { return v >= -kSlack && v <= 1.0 + kSlack; }

/// The share along the columns that goes with one along the rows.
double share_right(XY p, XY down, XY right, XY twist, double v) {
  const XY above{right.x + v * twist.x, right.y + v * twist.y};
  const XY rest{p.x - v * down.x, p.y - v * down.y};
  return std::abs(above.x) > std::abs(above.y) ? rest.x / above.x : rest.y / above.y;
}

/// p = right u + down v + twist u v for u, v in 0..1.
std::optional<XY> inverse_bilinear(XY p, XY right, XY down, XY twist) {
  // cross((p - v down), (right + v twist)) = 0: a square equation for v
  const double a = -cross(down, twist);
  const double b = cross(p, twist) - cross(down, right);
  const double c = cross(p, right);
  const double root2 = b * b - 4.0 * a * c;
  if (!(root2 >= 0.0)) {
    return std::nullopt;
  }
  const double q = -0.5 * (b + std::copysign(std::sqrt(root2), b));
  const double solutions[] = {q != 0.0 ? c / q : kNan, a != 0.0 ? q / a : kNan};
  for (const double v : solutions) {
    const double u = share_right(p, down, right, twist, v);
    if (is_share(v) && is_share(u)) {
      return XY{std::clamp(u, 0.0, 1.0), std::clamp(v, 0.0, 1.0)};
    }
  }
  return std::nullopt;
}

}  // namespace

CurvilinearGrid::CurvilinearGrid(int cols, int rows, std::vector<double> lon,
                                 std::vector<double> lat)
    : cols_(cols), rows_(rows), lon_(std::move(lon)), lat_(std::move(lat)) {
  index_quads();
}

CurvilinearGrid::Quad CurvilinearGrid::quad(std::size_t index) const {
  const auto width = static_cast<std::size_t>(cols_ - 1);
  const std::size_t first = index / width * static_cast<std::size_t>(cols_) + index % width;
  const std::size_t below = first + static_cast<std::size_t>(cols_);
  Quad q{};
  const std::size_t from[] = {first, first + 1, below, below + 1};
  for (std::size_t i = 0; i < 4; ++i) {
    q.at[i] = {near(lon_[from[i]], lon_[first]), lat_[from[i]]};
  }
  return q;
}

std::size_t CurvilinearGrid::bucket_row(double lat) const {
  const double share = (lat - south_) / (north_ - south_);
  const auto row =
      static_cast<std::size_t>(std::clamp(share, 0.0, 1.0) * static_cast<double>(bucket_rows_));
  return std::min(row, bucket_rows_ - 1);
}

template <typename Visit>
void CurvilinearGrid::each_bucket(const Quad& quad, const Visit& visit) const {
  const auto [west, east] = std::minmax({quad.at[0].x, quad.at[1].x, quad.at[2].x, quad.at[3].x});
  const auto [south, north] = std::minmax({quad.at[0].y, quad.at[1].y, quad.at[2].y, quad.at[3].y});
  if (!(east - west <= kWidest_deg)) {  // NaN too
    return;
  }
  const double size = 360.0 / static_cast<double>(bucket_cols_);
  const auto col0 = static_cast<std::int64_t>(std::floor((west - kSlack) / size));
  const auto col1 = static_cast<std::int64_t>(std::floor((east + kSlack) / size));
  const auto round = static_cast<std::int64_t>(bucket_cols_);
  const std::size_t row1 = bucket_row(north + kSlack);
  for (std::size_t row = bucket_row(south - kSlack); row <= row1; ++row) {
    for (std::int64_t col = col0; col <= std::min(col1, col0 + round - 1); ++col) {
      visit(row * bucket_cols_ + static_cast<std::size_t>(((col % round) + round) % round));
    }
  }
}

void CurvilinearGrid::index_quads() {
  south_ = 90.0;
  north_ = -90.0;
  for (const double lat : lat_) {
    if (std::isfinite(lat)) {
      south_ = std::min(south_, lat);
      north_ = std::max(north_, lat);
    }
  }
  north_ = std::max(north_, south_ + 1e-6);
  const auto count = static_cast<std::size_t>(cols_ - 1) * static_cast<std::size_t>(rows_ - 1);
  const double side = std::sqrt(static_cast<double>(count));
  bucket_rows_ = static_cast<std::size_t>(std::clamp(side, 1.0, 2048.0));
  bucket_cols_ = static_cast<std::size_t>(std::clamp(side * 360.0 / 40.0, 8.0, 4096.0));
  first_.assign(bucket_rows_ * bucket_cols_ + 1, 0);
  const auto each = [&](const auto& visit) {
    for (std::size_t i = 0; i < count; ++i) {
      each_bucket(quad(i), [&](std::size_t bucket) { visit(i, bucket); });
    }
  };
  each([&](std::size_t, std::size_t bucket) { ++first_[bucket + 1]; });
  for (std::size_t b = 1; b < first_.size(); ++b) {
    first_[b] += first_[b - 1];
  }
  quads_.resize(first_.back());
  std::vector<std::uint32_t> next(first_.begin(), first_.end() - 1);
  each([&](std::size_t i, std::size_t bucket) {
    quads_[next[bucket]++] = static_cast<std::uint32_t>(i);
  });
}

std::optional<XY> CurvilinearGrid::inside(std::size_t index, XY place) const {
  const Quad q = quad(index);
  const XY p = minus({near(place.x, q.at[0].x), place.y}, q.at[0]);
  const XY right = minus(q.at[1], q.at[0]);
  const XY down = minus(q.at[2], q.at[0]);
  const XY twist = minus(minus(q.at[3], q.at[1]), down);
  return inverse_bilinear(p, right, down, twist);
}

XY CurvilinearGrid::locate(XY lonlat) const {
  if (!std::isfinite(lonlat.x) || !(lonlat.y >= south_ && lonlat.y <= north_)) {
    return {kNan, kNan};
  }
  const double size = 360.0 / static_cast<double>(bucket_cols_);
  const auto round = static_cast<std::int64_t>(bucket_cols_);
  const auto col = static_cast<std::int64_t>(std::floor(lonlat.x / size));
  const std::size_t bucket = bucket_row(lonlat.y) * bucket_cols_ +
                             static_cast<std::size_t>(((col % round) + round) % round);
  const auto width = static_cast<std::uint32_t>(cols_ - 1);
  for (std::uint32_t k = first_[bucket]; k < first_[bucket + 1]; ++k) {
    if (const auto share = inside(quads_[k], lonlat)) {
      const std::uint32_t row = quads_[k] / width;
      return {quads_[k] % width + 0.5 + share->x, row + 0.5 + share->y};
    }
  }
  return {kNan, kNan};
}

std::shared_ptr<const CurvilinearGrid> CurvilinearGrid::cut(int col0, int row0, int cols,
                                                            int rows) const {
  std::vector<double> lon;
  std::vector<double> lat;
  for (int row = row0; row < row0 + rows; ++row) {
    const auto from = static_cast<std::ptrdiff_t>(row) * cols_ + col0;
    lon.insert(lon.end(), lon_.begin() + from, lon_.begin() + from + cols);
    lat.insert(lat.end(), lat_.begin() + from, lat_.begin() + from + cols);
  }
  return std::make_shared<const CurvilinearGrid>(cols, rows, std::move(lon), std::move(lat));
}

}  // namespace tidelot
