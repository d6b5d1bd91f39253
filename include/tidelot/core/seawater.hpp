// SPDX-License-Identifier: Apache-2.0
#pragma once

namespace tidelot {

/// Density of seawater at one atmosphere, kg/m3, from practical salinity (0..42) and temperature
/// (degC, -2..40): the international equation of state EOS-80 (UNESCO 1983, Technical Papers in
/// Marine Science 44). That is on IPTS-68; today's degrees differ by 0.01 at most, which is 3e-6 of
/// the density and left out.
[[nodiscard]] double seawater_density(double salinity, double temperature);

}  // namespace tidelot
