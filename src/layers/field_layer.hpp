// SPDX-License-Identifier: Apache-2.0
// [field]: readings from the boat.
#pragma once

#include "field_correction.hpp"

namespace tidelot {

struct FieldLayer {
  FieldChecks checks;
  FieldCorrections corrections;
};

/// Reads the table, holds it against the layers as they stand, and does what the plan asks for.
/// layers: all of them, not yet corrected. Adds its row, warnings and file; sets the errors of
/// other rows. opening.depth is given where depths are known. Throws Error(input).
[[nodiscard]] FieldLayer open_field(const Plan& plan, LayerSet& layers, Projector& grid_to_degrees,
                                    Opening& opening);

}  // namespace tidelot
