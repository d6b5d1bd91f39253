// SPDX-License-Identifier: Apache-2.0
// Fetch and waves over the whole grid.
#pragma once

#include <atomic>
#include <optional>
#include <span>

#include "run/area.hpp"
#include "tidelot/criteria/wave_climate.hpp"
#include "tidelot/run.hpp"

namespace tidelot::run {

/// The waves of the plan's winds; nothing without [waves]. depth_low_water: grid.size() values, m.
/// Fetch is measured at high water, when it is longest and the water deepest. The same bytes at any
/// thread count: directions are worked out side by side and added in their order.
[[nodiscard]] std::optional<WaveMaps> wave_maps(const Plan& plan, const Area& area,
                                                std::span<const float> depth_low_water, int threads,
                                                const std::atomic<int>* stop_signal);

}  // namespace tidelot::run
