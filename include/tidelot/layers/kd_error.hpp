// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// The error of Kd (1/m) where it is kd, from that of what was measured (Secchi depth, m;
/// turbidity, NTU; else Kd itself): the relation's slope there times the error. An attenuation at
/// 490 nm counts as one of PAR: the relation's slope is near 1.
[[nodiscard]] double kd_error(double kd, double error, Quantity measured, const LightPlan& light);

}  // namespace tidelot
