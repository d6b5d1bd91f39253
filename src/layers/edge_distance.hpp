// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <vector>

namespace tidelot {

/// How far each covered cell of a block is from the nearest cell of the block that is not covered,
/// centre to centre, in cells: exact, 0 where a cell is not covered itself, infinite where all are.
/// covered: cols x rows, row by row, 1 or 0. (Felzenszwalb & Huttenlocher 2012, Theory of Computing
/// 8:415-428: one pass down the columns, one along the rows; squares of whole numbers, so exact.)
[[nodiscard]] std::vector<double> edge_distance(const std::vector<std::uint8_t>& covered, int cols,
                                                int rows);

}  // namespace tidelot
