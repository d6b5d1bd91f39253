// SPDX-License-Identifier: Apache-2.0
#include "wind_layer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

constexpr std::size_t kMaxBytes = std::size_t{1} << 20;

LayerReport row_of(const WavesPlan& plan, const WindRose& rose) {
  LayerReport report;
  report.key = "waves.winds";
  report.file = plan.winds.written;
  report.what = fmt::format("wind rose, {} directions", rose.sectors.size());
  report.unit = "m/s";
  report.basis = fmt::format("from the file; wind at {} m", shortest(plan.winds_height_m));
  const bool given = std::all_of(rose.sectors.begin(), rose.sectors.end(),
                                 [](const WindSector& s) { return s.speed_50y > 0.0; });
  report.verdict = fmt::format("calm {} % of the time; high winds {}", fixed(100.0 * rose.calm, 1),
                               given ? "as given" : "from a Weibull fit to the classes");
  for (const WindSector& sector : rose.sectors) {
    for (const WindClass& each : sector.classes) {
      report.high = std::max(report.high, each.speed);
    }
  }
  return report;
}

}  // namespace

WindRose read_winds(const WavesPlan& plan, Opening& opening) {
  opening.files.push_back(plan.winds);
  try {
    const WindRose rose =
        wind_rose(parse_csv(opening.opener.read_text(plan.winds, "waves.winds", kMaxBytes)),
                  plan.winds_height_m);
    opening.reports.push_back(row_of(plan, rose));
    return rose;
  } catch (const std::invalid_argument& problem) {
    throw Error(Fault::input,
                fmt::format("waves.winds: {}: {}", plan.winds.written, problem.what()));
  }
}

}  // namespace tidelot
