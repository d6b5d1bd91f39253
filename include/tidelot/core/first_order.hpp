// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>

namespace tidelot {

/// The share of an output's variance that goes with one input alone (its first-order index), from
/// draws of all inputs at once: the output is fitted by Legendre polynomials of the first and
/// second degree in the input's rank (random-sampling high-dimensional model representation: Li,
/// Wang & Rabitz 2002, J. Phys. Chem. A 106:8721), and the share of the variance that they carry is
/// corrected for what chance would carry (Ezekiel 1930: 1 - (1 - R2)(n - 1)/(n - 3)). 0 to 1; 0
/// where the output does not vary, or of four draws or fewer.
[[nodiscard]] double first_order_share(std::span<const double> input,
                                       std::span<const double> output);

/// A share below is not told from chance by so many draws: what an input without any effect passes
/// once in twenty (the F distribution of two and n - 3 degrees of freedom).
[[nodiscard]] double chance_share(std::size_t draws);

}  // namespace tidelot
