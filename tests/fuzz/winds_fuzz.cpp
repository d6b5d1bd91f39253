// SPDX-License-Identifier: Apache-2.0
// Bytes as a table of winds: refused, or a rose whose shares make a whole and whose sectors go
// round the compass evenly. The first byte is the height of the wind above the sea.
#include <cmath>
#include <stdexcept>

#include "promise.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/layers/wind_rose.hpp"

namespace {

using namespace tidelot;
using fuzz::promise;

constexpr double kRounding = 1e-6;

void check_sector(const WindRose& rose, std::size_t i, double& whole) {
  const WindSector& sector = rose.sectors[i];
  const double step = 360.0 / static_cast<double>(rose.sectors.size());
  const double from = rose.sectors[0].from_deg + static_cast<double>(i) * step;
  promise(sector.from_deg >= 0.0 && sector.from_deg < 360.0, "a sector lies on the compass");
  promise(std::abs(sector.from_deg - from) < 0.02, "sectors are evenly spaced");
  promise(sector.speed_50y == 0.0 || sector.speed_50y >= sector.speed_1y,
          "the highest wind of fifty years, where it is given, is not below that of one");
  for (const WindClass& each : sector.classes) {
    promise(std::isfinite(each.speed) && each.speed >= 0.0, "a speed is finite");
    promise(each.share >= 0.0 && each.share <= 1.0 + kRounding, "a share is one of a whole");
    whole += each.share;
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t count) {
  if (count == 0) {
    return 0;
  }
  try {
    const WindRose rose = wind_rose(parse_csv(fuzz::text_of(bytes + 1, count - 1)), 2.0 + bytes[0]);
    double whole = rose.calm;
    for (std::size_t i = 0; i < rose.sectors.size(); ++i) {
      check_sector(rose, i, whole);
    }
    promise(!rose.sectors.empty() && rose.calm >= 0.0, "a rose has sectors");
    promise(std::abs(whole - 1.0) < 0.02, "shares and calm make a whole");
  } catch (const std::invalid_argument& refusal) {
    fuzz::promise_one_line(Error(Fault::input, refusal.what()).what());
  }
  return 0;
}
