// SPDX-License-Identifier: Apache-2.0
#include "stencil.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tidelot {
namespace {

/// Column and row of the pixel whose centre is the nearest one up and to the left.
struct Corner {
  int col = 0;
  int row = 0;
  friend bool operator==(const Corner&, const Corner&) = default;
};

bool is_inside(const RasterInfo& info, XY p) {
  return p.x >= 0.0 && p.x <= info.cols && p.y >= 0.0 && p.y <= info.rows;
}

/// Positions inside are not negative, so cutting off is rounding down.
Corner corner_of(XY p) {
  return {static_cast<int>(p.x + 0.5) - 1, static_cast<int>(p.y + 0.5) - 1};
}

/// The pixels around all positions inside the raster; no columns when there are none.
Window block_of(const RasterInfo& info, std::span<const XY> positions) {
  XY low{double{1} * info.cols + 1, double{1} * info.rows + 1};
  XY high{-1.0, -1.0};
  for (const XY& p : positions) {
    if (is_inside(info, p)) {
      low = {std::min(low.x, p.x), std::min(low.y, p.y)};
      high = {std::max(high.x, p.x), std::max(high.y, p.y)};
    }
  }
  if (high.x < 0.0) {
    return {};
  }
  const Corner first = corner_of(low);
  const Corner last = corner_of(high);
  return {first.col, first.row, last.col - first.col + 2, last.row - first.row + 2};
}

std::size_t cells(const Window& w) {
  return static_cast<std::size_t>(w.cols) * static_cast<std::size_t>(w.rows);
}

/// Adds a position to the last run when it lies between the same four pixels.
void add_to_runs(std::vector<StencilRun>& runs, std::int32_t corner, std::int32_t position) {
  if (runs.empty() || runs.back().corner != corner) {
    runs.push_back({position, 0, corner});
  }
  ++runs.back().count;
}

Stencil make_stencil(const RasterInfo& info, std::span<const XY> positions, std::size_t first,
                     const Window& block) {
  Stencil stencil{first, positions.size(), block, goes_round_the_earth(info), {}, {}, {}};
  stencil.right.resize(positions.size());
  stencil.down.resize(positions.size());
  for (std::size_t i = 0; i < positions.size(); ++i) {
    const XY p = positions[i];
    std::int32_t corner = -1;
    if (is_inside(info, p)) {
      const Corner c = corner_of(p);
      stencil.right[i] = p.x - 0.5 - c.col;
      stencil.down[i] = p.y - 0.5 - c.row;
      corner = (c.row - block.row0) * block.cols + c.col - block.col0;
    }
    add_to_runs(stencil.runs, corner, static_cast<std::int32_t>(i));
  }
  return stencil;
}

void add_stencils(const RasterInfo& info, std::span<const XY> positions, std::size_t first,
                  std::size_t max_block, std::vector<Stencil>& out) {
  const Window block = block_of(info, positions);
  if (cells(block) <= max_block || positions.size() == 1) {
    out.push_back(make_stencil(info, positions, first, block));
    return;
  }
  const std::size_t half = positions.size() / 2;
  add_stencils(info, positions.first(half), first, max_block, out);
  add_stencils(info, positions.subspan(half), first + half, max_block, out);
}

/// Reads one part of the block, whose columns lie inside the raster once shifted.
void read_part(RasterSource& source, int band, const Window& block, int col0, int cols, int shift,
               std::span<float> pixels) {
  const int row0 = std::max(block.row0, 0);
  const int row1 = std::min(block.row0 + block.rows, source.info().rows);
  if (cols <= 0 || row1 <= row0) {
    return;
  }
  std::vector<float> part(static_cast<std::size_t>(cols) * static_cast<std::size_t>(row1 - row0));
  source.read(band, {col0 + shift, row0, cols, row1 - row0}, part);
  for (int row = row0; row < row1; ++row) {
    const auto to = static_cast<std::ptrdiff_t>(row - block.row0) * block.cols + col0 - block.col0;
    std::copy_n(part.begin() + static_cast<std::ptrdiff_t>(row - row0) * cols, cols,
                pixels.begin() + to);
  }
}

std::vector<float> read_block(const Stencil& stencil, RasterSource& source, int band) {
  const Window& block = stencil.block;
  std::vector<float> pixels(cells(block), std::numeric_limits<float>::quiet_NaN());
  const int width = source.info().cols;
  const int end = block.col0 + block.cols;
  const int inside0 = std::max(block.col0, 0);
  const int inside1 = std::min(end, width);
  read_part(source, band, block, inside0, inside1 - inside0, 0, pixels);
  if (stencil.round_the_earth) {
    read_part(source, band, block, block.col0, inside0 - block.col0, width, pixels);
    read_part(source, band, block, inside1, end - inside1, -width, pixels);
  }
  return pixels;
}

/// The four pixels of a run: upper left, upper right, lower left, lower right.
struct Four {
  double a, b, c, d;
  [[nodiscard]] bool all_valid() const { return !std::isnan(a + b + c + d); }
};

/// a + (b-a)u + (c-a)v + (a-b-c+d)uv: the bilinear surface with its constants taken out of the
/// loop.
void fill_valid(const Four& p, const double* right, const double* down, int count, float* out) {
  const double by_right = p.b - p.a;
  const double by_down = p.c - p.a;
  const double by_both = (p.a - p.b) + (p.d - p.c);
  for (int i = 0; i < count; ++i) {
    const double u = right[i];
    const double v = down[i];
    out[i] = static_cast<float>(p.a + by_right * u + (by_down + by_both * u) * v);
  }
}

/// What the neighbours with data say together, and the weight they have.
struct Partly {
  double value;
  double weight;
};

/// Some of the four have no data: the others share the weight.
Partly partly_valid(const Four& p, double u, double v) {
  const double values[] = {p.a, p.b, p.c, p.d};
  const double weights[] = {(1 - u) * (1 - v), u * (1 - v), (1 - u) * v, u * v};
  double weight = 0.0;
  double sum = 0.0;
  for (int k = 0; k < 4; ++k) {
    if (!std::isnan(values[k])) {
      weight += weights[k];
      sum += weights[k] * values[k];
    }
  }
  return {sum / weight, weight};
}

/// Where the values of a stencil go.
struct Target {
  double least_weight;
  float* out;
  float* share;  ///< may be null
};

void fill_run(const StencilRun& run, const Stencil& stencil, const std::vector<float>& pixels,
              const Target& target) {
  float* const to = target.out + run.first;
  float* const share = target.share != nullptr ? target.share + run.first : nullptr;
  if (run.corner < 0) {
    std::fill_n(to, run.count, std::numeric_limits<float>::quiet_NaN());
    if (share != nullptr) {
      std::fill_n(share, run.count, 0.0F);
    }
    return;
  }
  const float* const upper = pixels.data() + run.corner;
  const float* const lower = upper + stencil.block.cols;
  const Four four{upper[0], upper[1], lower[0], lower[1]};
  const double* const right = stencil.right.data() + run.first;
  const double* const down = stencil.down.data() + run.first;
  if (four.all_valid()) {
    fill_valid(four, right, down, run.count, to);
    return;
  }
  for (int i = 0; i < run.count; ++i) {
    const Partly partly = partly_valid(four, right[i], down[i]);
    to[i] = partly.weight >= target.least_weight ? static_cast<float>(partly.value)
                                                 : std::numeric_limits<float>::quiet_NaN();
    if (share != nullptr) {
      share[i] = std::min(share[i], static_cast<float>(partly.weight));
    }
  }
}

}  // namespace

double columns_round_the_earth(const RasterInfo& info) {
  const auto& g = info.geotransform;
  const bool upright = g[2] == 0.0 && g[4] == 0.0 && g[1] != 0.0;
  return info.geographic && upright ? 360.0 / std::abs(g[1]) : 0.0;
}

bool goes_round_the_earth(const RasterInfo& info) {
  const double columns = columns_round_the_earth(info);
  return columns > 0.0 && std::abs(columns - info.cols) < 0.5;
}

std::vector<Stencil> make_stencils(const RasterInfo& info, std::span<const XY> positions,
                                   std::size_t max_block) {
  std::vector<Stencil> stencils;
  if (!positions.empty()) {
    add_stencils(info, positions, 0, max_block, stencils);
  }
  return stencils;
}

double least_weight(EdgeRule edge) {
  // Weights of 1e-9 come from rounding: a position on a row of pixel centres needs one row alone.
  constexpr double kRounding = 1e-9;
  switch (edge) {
    case EdgeRule::full:
      return 1.0 - kRounding;
    case EdgeRule::any:
      return kRounding;
    case EdgeRule::half:
      break;
  }
  return 0.5;
}

void apply(std::span<const Stencil> stencils, RasterSource& source, int band, EdgeRule edge,
           std::span<float> out, std::span<float> share) {
  const double least = least_weight(edge);
  for (const Stencil& stencil : stencils) {
    const std::vector<float> pixels = read_block(stencil, source, band);
    const Target target{least, out.data() + stencil.first,
                        share.empty() ? nullptr : share.data() + stencil.first};
    for (const StencilRun& run : stencil.runs) {
      fill_run(run, stencil, pixels, target);
    }
  }
}

void sample_bilinear(RasterSource& source, int band, std::span<const XY> positions,
                     std::span<float> out) {
  apply(make_stencils(source.info(), positions), source, band, EdgeRule::half, out);
}

}  // namespace tidelot
