// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/print.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/plan/crop_profile.hpp"

namespace tidelot::cli {
namespace {

constexpr std::size_t kWidth = 96;

std::string range_of(const CropConstant& c) {
  return c.low < c.high ? shortest(c.low) + " to " + shortest(c.high) : "-";
}

void print_crop(const Crop& crop) {
  print(fmt::format("{}: {}\n{}\n\nSeason: {}\n\n", crop.name, crop.title,
                    wrapped(crop.about, kWidth, 0), wrapped(crop.season, kWidth, 8)));
  std::vector<std::vector<std::string>> rows{{"constant", "value", "range", "unit", "source"}};
  for (const CropConstant& c : crop.constants) {
    rows.push_back({c.name, shortest(c.value), range_of(c), c.unit, c.source});
  }
  print(table(rows));
  print("\nSalinity response (practical salinity: factor):");
  for (const Curve::Point& p : crop.salinity.points()) {
    print(fmt::format("  {}: {}", shortest(p.x), shortest(p.y)));
  }
  print(fmt::format("\n  {}\n", crop.salinity_source));
}

}  // namespace

int crops(const std::string& name) {
  if (!name.empty()) {
    print_crop(built_in_crop(name));
    return 0;
  }
  for (const std::string& each : built_in_crops()) {
    print(fmt::format("{}  {}\n", each, built_in_crop(each).title));
  }
  print("\ntidelot crops NAME prints every constant with its source.\n");
  return 0;
}

}  // namespace tidelot::cli
