// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>

namespace tidelot {

/// A steady box of well mixed water with a crop in it. Concentrations in mmol/m3 (= umol/L), flow
/// in m3/s, uptake and supply in mmol/s (or any units that fit together).
struct FarmBox {
  double inside;  ///< C: what the crop sees and the box hands on
  double uptake;
  double supply;  ///< flow * inflow
};

/// flow (inflow - C) = v_max C/(k + C), the root >= 0; v_max is that of all the crop in the box
/// (docs/science/depletion.md). All >= 0, k > 0; without flow C is 0.
[[nodiscard]] FarmBox farm_box(double flow, double inflow, double v_max, double k);

/// The same for any uptake that never falls as C rises: how far below the inflow C lies where flow
/// times that drop is uptake(C), to 1e-13 of the uptake. Below 0 where the crop gives nitrogen
/// back. Without flow, and where the crop would take more than the water brings even at C = 0, all
/// of the inflow is gone. The drop, and not C, is sought: it keeps its digits where little is drawn
/// down.
[[nodiscard]] double nitrogen_drop(double flow, double inflow,
                                   const std::function<double(double)>& uptake);

}  // namespace tidelot
