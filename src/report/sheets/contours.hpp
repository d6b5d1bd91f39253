// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <vector>

#include "tidelot/core/grid.hpp"

/// Lines of equal value.
namespace tidelot::sheet {

/// A line of equal value through the centres of samples: places in samples, the centre of the first
/// being 0, 0; closed where its first place is its last.
using Isoline = std::vector<XY>;

/// Lines of `level` on cols x rows samples, row by row, by marching squares: straight within each
/// square of four neighbouring centres, linear along its edges. Squares with a NaN have none. A
/// saddle is parted by the mean of its four. The order depends on the samples alone.
[[nodiscard]] std::vector<Isoline> isolines(int cols, int rows, std::span<const float> samples,
                                            double level);

/// A step of 1, 2 or 5 times a power of ten, 1 at least, that gives at most `most` lines between
/// the least and the largest value.
[[nodiscard]] double contour_step(double low, double high, int most);

/// Leaves out places that lie within `tolerance` of the straight line between those kept (Douglas
/// and Peucker 1973).
[[nodiscard]] Isoline thinned(const Isoline& line, double tolerance);

}  // namespace tidelot::sheet
