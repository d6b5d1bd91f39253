// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

namespace tidelot {

/// Codes of maps/reason.tif: what holds a cell back most. Closed rules follow from kFirstRule, the
/// user's own criteria from kFirstOwn.
namespace reason {
inline constexpr std::uint8_t kOutside = 0;  ///< outside the outline; the map's nodata
inline constexpr std::uint8_t kLand = 1;
inline constexpr std::uint8_t kDepthUnknown = 2;
inline constexpr std::uint8_t kTemperatureUnknown = 3;
inline constexpr std::uint8_t kSalinityUnknown = 4;
inline constexpr std::uint8_t kLightUnknown = 5;
inline constexpr std::uint8_t kNitrogenUnknown = 6;
inline constexpr std::uint8_t kCurrentUnknown = 7;
inline constexpr std::uint8_t kOwnUnknown = 8;
inline constexpr std::uint8_t kAccessUnknown = 9;
inline constexpr std::uint8_t kNothing = 10;  ///< every criterion is at its best
inline constexpr std::uint8_t kAground = 11;  ///< gear would ground at the lowest tides
inline constexpr std::uint8_t kTooCold = 12;
inline constexpr std::uint8_t kTooHot = 13;
inline constexpr std::uint8_t kOutsideGear = 14;
inline constexpr std::uint8_t kCropLost = 15;
/// Beyond what the gear bears ([farm] max_depth_m, max_wave_m, max_current_m_s).
inline constexpr std::uint8_t kBeyondDepth = 16;
inline constexpr std::uint8_t kBeyondWaves = 17;
inline constexpr std::uint8_t kBeyondCurrent = 18;
inline constexpr std::uint8_t kSlopeUnknown = 19;
/// What holds growth back most, index = Limit. 20 and 21 are kept free: they meant temperature and
/// salinity without their side.
inline constexpr std::array<std::uint8_t, 7> kGrowth{25, 26, 27, 28, 22, 23, 24};
inline constexpr std::uint8_t kTooShallow = 30;  ///< the depth curve, on its rising side
inline constexpr std::uint8_t kTooDeep = 31;
inline constexpr std::uint8_t kCurrentWeak = 32;
inline constexpr std::uint8_t kCurrentStrong = 33;
inline constexpr std::uint8_t kFarFromLanding = 34;
inline constexpr std::uint8_t kWavesHigh = 35;
inline constexpr std::uint8_t kSteep = 36;
inline constexpr std::uint8_t kFirstOwn = 40;
inline constexpr std::uint8_t kFirstRule = 64;
inline constexpr std::uint8_t kFirstRuleUnknown = 96;  ///< whether the rule holds is not known

/// Is it a code of something that is not known?
[[nodiscard]] constexpr bool says_unknown(std::size_t code) {
  return (code >= kDepthUnknown && code <= kAccessUnknown) || code == kSlopeUnknown ||
         code >= kFirstRuleUnknown;
}

/// Is it a code of water that is closed?
[[nodiscard]] constexpr bool says_closed(std::size_t code) {
  return code == kAground || (code >= kBeyondDepth && code <= kBeyondCurrent) ||
         (code >= kFirstRule && code < kFirstRuleUnknown);
}
}  // namespace reason

}  // namespace tidelot
