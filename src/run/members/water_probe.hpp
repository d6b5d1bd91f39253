// SPDX-License-Identifier: Apache-2.0
// What a change of the water does to the members, and how far water is from what lies between.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "run/members/member_lattice.hpp"

namespace tidelot::run {

inline constexpr std::size_t kWaterProperties = 7;

/// The properties of a forcing in one order.
[[nodiscard]] std::array<const NodeArray*, kWaterProperties> properties_of(
    const KernelForcing& water);

/// By how much of the crop hauled a member changes at most where a property is other all year, per
/// unit: 1 degC, 1 of salinity, 100 % of the others.
using Sensitivity = std::array<float, kWaterProperties>;

/// Of one cell, the most among some of the members. Adds the seasons grown.
[[nodiscard]] std::vector<Sensitivity> sensitivities(const MemberGround& ground,
                                                     std::span<const std::uint32_t> cells,
                                                     const Members& members, LayerDraws& draws,
                                                     std::size_t& seasons);

/// How much of the crop the members of each cell may be off because its water is not that between
/// four corners. water: of the cells, then of the four corners; shares: what each corner counts for
/// in each cell.
[[nodiscard]] std::vector<float> off_by_water(const KernelForcing& water,
                                              std::span<const std::array<float, 4>> shares,
                                              const Sensitivity& sensitivity);

}  // namespace tidelot::run
