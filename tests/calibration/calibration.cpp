// SPDX-License-Identifier: Apache-2.0
// Prints what the model predicts for the published trials of a crop beside what was measured, as
// CSV: with the profile's constants, the spread that their triangular ranges give (200 draws of a
// Latin hypercube, fixed seed), and of the alga with the constants fitted to the net culture rates.
// The tables that are committed as docs/science/calibration.csv and calibration-kelp.csv; written
// anew by scripts/calibration.
//   calibration alga|kelp
#include <fmt/format.h>

#include <string_view>

#include "calibration/tables.hpp"

int main(int count, char** words) {
  const std::string_view crop = count == 2 ? words[1] : "";
  if (crop != "alga" && crop != "kelp") {
    fmt::print(stderr, "usage: calibration alga|kelp\n");
    return 2;
  }
  fmt::print("{}", crop == "alga" ? tidelot::calibration::alga_table()
                                  : tidelot::calibration::kelp_table());
  return 0;
}
