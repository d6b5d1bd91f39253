// SPDX-License-Identifier: Apache-2.0
// Where a tile's cells fall between the pixels of a raster: worked out once, used for every band.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "tidelot/layers/raster_source.hpp"
#include "tidelot/layers/sampler.hpp"

namespace tidelot {

/// A run of neighbouring cells between the same four pixels.
struct StencilRun {
  std::int32_t first = 0;  ///< position
  std::int32_t count = 0;
  std::int32_t corner = -1;  ///< upper left of the four, in the block; -1: outside the raster
};

/// A stretch of positions and the block of pixels that they need. The block may reach one pixel
/// beyond the raster: those pixels have no data, or come from the other side of a raster that goes
/// round the earth.
struct Stencil {
  std::size_t first = 0;  ///< of the positions
  std::size_t count = 0;
  Window block;
  bool round_the_earth = false;
  std::vector<StencilRun> runs;
  std::vector<double> right;  ///< share of the right-hand pixels, 0..1
  std::vector<double> down;   ///< share of the lower pixels
};

/// A stretch is halved until its block holds no more than max_block pixels (or it is one position).
[[nodiscard]] std::vector<Stencil> make_stencils(const RasterInfo& info,
                                                 std::span<const XY> positions,
                                                 std::size_t max_block = std::size_t{1} << 23);

/// sample_bilinear for one band; out has as many values as there were positions. share, where it is
/// not empty: lowered to the weight of the neighbours that have data, 1 where all four do.
void apply(std::span<const Stencil> stencils, RasterSource& source, int band, EdgeRule edge,
           std::span<float> out, std::span<float> share = {});

/// The weight (0..1] that the neighbours with data must reach under the rule.
[[nodiscard]] double least_weight(EdgeRule edge);

/// Columns that go round the earth, 360 / pixel width; 0 where the raster isn't geographic and
/// upright.
[[nodiscard]] double columns_round_the_earth(const RasterInfo& info);

/// Does the last column meet the first?
[[nodiscard]] bool goes_round_the_earth(const RasterInfo& info);

}  // namespace tidelot
