// SPDX-License-Identifier: Apache-2.0
#include "report/colour.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace tidelot::page {
namespace {

constexpr std::array<Rgb, 17> kBatlow{{{1, 25, 89},
                                       {13, 49, 93},
                                       {17, 67, 96},
                                       {23, 82, 98},
                                       {34, 96, 97},
                                       {53, 106, 89},
                                       {77, 115, 77},
                                       {102, 123, 62},
                                       {130, 130, 50},
                                       {160, 137, 43},
                                       {191, 144, 53},
                                       {220, 149, 76},
                                       {241, 157, 107},
                                       {252, 168, 145},
                                       {253, 180, 180},
                                       {252, 191, 214},
                                       {250, 204, 250}}};

// devon from its 15th colour of 17 (pale) down to its first (dark).
constexpr std::array<Rgb, 15> kDeepWater{{{228, 226, 250},
                                          {215, 212, 247},
                                          {202, 198, 244},
                                          {190, 184, 242},
                                          {175, 170, 238},
                                          {154, 155, 231},
                                          {126, 142, 220},
                                          {94, 128, 207},
                                          {66, 114, 188},
                                          {50, 101, 165},
                                          {41, 88, 143},
                                          {39, 71, 123},
                                          {41, 56, 106},
                                          {42, 41, 91},
                                          {44, 26, 76}}};

std::uint8_t mix(std::uint8_t a, std::uint8_t b, double share) {
  return static_cast<std::uint8_t>(std::lround(a + (b - a) * share));
}

}  // namespace

Ramp batlow() { return kBatlow; }

Ramp deep_water() { return kDeepWater; }

Rgb colour_at(Ramp ramp, double t) {
  const double place = std::clamp(t, 0.0, 1.0) * static_cast<double>(ramp.size() - 1);
  const auto below = std::min(static_cast<std::size_t>(place), ramp.size() - 2);
  const double share = place - static_cast<double>(below);
  const Rgb a = ramp[below];
  const Rgb b = ramp[below + 1];
  return {mix(a.r, b.r, share), mix(a.g, b.g, share), mix(a.b, b.b, share)};
}

std::string hex(Rgb colour) {
  return fmt::format("#{:02x}{:02x}{:02x}", colour.r, colour.g, colour.b);
}

}  // namespace tidelot::page
