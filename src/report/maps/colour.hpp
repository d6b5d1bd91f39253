// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>

/// Colours of the maps. They differ in lightness all along, so that they are told apart without
/// colour vision and on a black-and-white copy.
namespace tidelot::page {

struct Rgb {
  std::uint8_t r = 0, g = 0, b = 0;
  friend bool operator==(const Rgb&, const Rgb&) = default;
};

/// A table of colours at even steps from 0 to 1, joined linearly.
using Ramp = std::span<const Rgb>;

/// One ramp a quantity, perceptually uniform, its lightness rising (or falling) all along, also to
/// colour-blind eyes; the source stands in ramps.cpp. More is lighter, but deeper water and higher
/// waves are darker.
[[nodiscard]] Ramp batlow();  ///< suitability
[[nodiscard]] Ramp bamako();  ///< yield
[[nodiscard]] Ramp acton();   ///< nitrogen
[[nodiscard]] Ramp devon();   ///< depth: turned round
[[nodiscard]] Ramp lapaz();   ///< season
[[nodiscard]] Ramp davos();   ///< waves: turned round
[[nodiscard]] Ramp imola();   ///< confidence

/// The colour at t; below 0 and above 1 the ends.
[[nodiscard]] Rgb colour_at(Ramp ramp, double t);
/// "#0a1b2c".
[[nodiscard]] std::string hex(Rgb colour);

inline constexpr Rgb kLand{186, 184, 177};
inline constexpr Rgb kPaper{255, 255, 255};
inline constexpr Rgb kInk{29, 36, 43};
inline constexpr Rgb kClosed{232, 229, 220};

}  // namespace tidelot::page
