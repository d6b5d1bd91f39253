// SPDX-License-Identifier: Apache-2.0
// Random numbers that are a function of their place, and what is drawn with them.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

namespace tidelot {

/// Where a random number stands: what it is for, and up to two places of a lattice. Equal places
/// give equal numbers, whatever was drawn before and by whom.
struct Place {
  std::uint32_t stream = 0;
  std::uint32_t column = 0;
  std::uint32_t row = 0;
};

/// A number between 0 and 1, neither of them, number `index` of a place. Philox 4x32-10 (Salmon et
/// al. 2011, Parallel random numbers: as easy as 1, 2, 3; SC '11), 53 bits.
[[nodiscard]] double uniform_at(std::uint64_t seed, Place place, std::uint32_t index);

/// `draws` numbers between 0 and 1, one in each of as many equal parts, in random order (McKay,
/// Beckman & Conover 1979, Technometrics 21:239).
[[nodiscard]] std::vector<double> latin_hypercube(std::uint64_t seed, Place place, int draws);

/// The standard normal deviate that a share p of the draws lies below, 0 < p < 1.
[[nodiscard]] double normal_quantile(double p);

/// A triangular distribution; low <= mode <= high.
struct Triangular {
  double low = 0.0, mode = 0.0, high = 0.0;
};
/// The value that a share p of the draws lies below, 0 <= p <= 1.
[[nodiscard]] double triangular_quantile(double p, const Triangular& t);

/// Factor with mean 1 and coefficient of variation cv that belongs to a standard normal deviate:
/// exp(s z - s^2/2), s^2 = ln(1 + cv^2).
[[nodiscard]] double lognormal_factor(double z, double cv);
/// The s of it, and the same factor where s is known.
[[nodiscard]] double lognormal_spread(double cv);
[[nodiscard]] double lognormal_of_spread(double z, double spread);

/// The value that a share p of the sorted values lies below, between neighbours in a straight line
/// (Hyndman & Fan 1996, Am. Stat. 50:361, type 7). NaN where there are none.
[[nodiscard]] double quantile_of_sorted(std::span<const float> sorted, double p);

/// What is printed of a spread.
struct Quantiles {
  double p10 = 0.0, p50 = 0.0, p90 = 0.0;
};
/// Sorts the values.
[[nodiscard]] Quantiles quantiles_of(std::span<float> values);

}  // namespace tidelot
