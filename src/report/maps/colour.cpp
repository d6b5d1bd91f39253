// SPDX-License-Identifier: Apache-2.0
#include "report/maps/colour.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace tidelot::page {
namespace {

std::uint8_t mix(std::uint8_t a, std::uint8_t b, double share) {
  return static_cast<std::uint8_t>(std::lround(a + (b - a) * share));
}

}  // namespace

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
