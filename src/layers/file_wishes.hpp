// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "tidelot/layers/file_wish.hpp"

namespace tidelot {

/// The files that open_layers is going to ask for, as far as the plan alone says. A file that is
/// missing here, or asked for in another way, only takes longer to open.
[[nodiscard]] std::vector<FileWish> file_wishes(const Plan& plan, const Grid& grid,
                                                const LonLatBox& bounds,
                                                Projector& grid_to_degrees);

}  // namespace tidelot
