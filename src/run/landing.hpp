// SPDX-License-Identifier: Apache-2.0
// Where the boat goes out, and how far from there its water begins.
#pragma once

#include <vector>

#include "run/area.hpp"

namespace tidelot::run {

/// The plan's landing in the grid's system; Error(plan) when it lies outside the area.
[[nodiscard]] XY landing_place(const Plan& plan, Area& area);

/// From a place of the grid to the centre of the nearest cell that is deeper than least_m at low
/// water, m on the grid; infinite where there is none. Reads the depths around the place alone.
[[nodiscard]] double distance_to_water(LayerSet& layers, XY from, double least_m);

/// A warning of the area where the landing lies far from water for the boat: ways over water begin
/// at the nearest. Nothing without a landing. Error(plan) when it lies outside the area, added to
/// problems where they are given.
void look_at_landing(const Plan& plan, Area& area, std::vector<Error>* problems);

}  // namespace tidelot::run
