// SPDX-License-Identifier: Apache-2.0
// Fetch and waves over the whole grid.
#pragma once

#include <atomic>
#include <optional>
#include <span>
#include <vector>

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

/// The plan's directions with what their winds raise; none without [waves].
[[nodiscard]] std::vector<WaveDirection> wave_directions(const Plan& plan, const Area& area);

/// Significant height once in fifty years, m, the highest over some cells, were all depths other by
/// `shift_m`; 0 where none is water. As wave_maps, by one worker.
[[nodiscard]] double highest_wave(const Plan& plan, const Area& area,
                                  std::span<const WaveDirection> directions,
                                  std::span<const float> depth_low_water, double shift_m,
                                  std::span<const std::size_t> cells);

}  // namespace tidelot::run
