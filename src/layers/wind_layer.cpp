// SPDX-License-Identifier: Apache-2.0
#include "wind_layer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"
#include "wind_series.hpp"

namespace tidelot {
namespace {

constexpr std::size_t kMaxBytes = std::size_t{1} << 20;

LayerReport bare_row(const WavesPlan& plan, const WindRose& rose) {
  LayerReport report;
  report.key = "waves.winds";
  report.file = plan.winds.written;
  report.unit = "m/s";
  report.basis = fmt::format("from the file; wind at {} m", shortest(plan.winds_height_m));
  for (const WindSector& sector : rose.sectors) {
    for (const WindClass& each : sector.classes) {
      report.high = std::max(report.high, each.speed);
    }
  }
  return report;
}

LayerReport row_of(const WavesPlan& plan, const WindRose& rose) {
  LayerReport report = bare_row(plan, rose);
  report.what = fmt::format("wind rose, {} directions", rose.sectors.size());
  const bool given = std::all_of(rose.sectors.begin(), rose.sectors.end(),
                                 [](const WindSector& s) { return s.speed_50y > 0.0; });
  report.verdict = fmt::format("calm {} % of the time; high winds {}", fixed(100.0 * rose.calm, 1),
                               given ? "as given" : "from a Weibull fit to the classes");
  return report;
}

/// The rose of a series in time, and where its high winds come from.
WindRose rose_of_series(const WavesPlan& plan, Opening& opening) {
  const std::string key = "waves.winds";
  auto* reader = dynamic_cast<SeriesReader*>(&opening.opener);
  if (reader == nullptr) {
    throw Error(Fault::input, fmt::format("{}: {}: cannot be read as a series of winds in time",
                                          key, plan.winds.written));
  }
  const TimeSeries series = reader->read_series(plan.winds, key, wind_names());
  const WindSteps steps = wind_steps(series, plan.winds_height_m, key, plan.winds.written);
  const CfCalendar calendar = parse_cf_time(series.time_unit, series.calendar).calendar;
  const SeriesRose found = series_rose(steps, calendar);
  LayerReport report = bare_row(plan, found.rose);
  report.what =
      fmt::format("wind series, {} steps ({} missing)", steps.speeds.size(), steps.missing);
  report.unit = steps.unit;
  report.cover = static_cast<double>(steps.speeds.size()) /
                 static_cast<double>(steps.speeds.size() + steps.missing);
  report.times = fmt::format("{} to {}", to_text(steps.days.front()), to_text(steps.days.back()));
  report.verdict = found.full_years >= kFewestYears
                       ? fmt::format(
                             "calm {} % of the time; high winds from a Gumbel fit to the "
                             "highest of {} full years",
                             fixed(100.0 * found.rose.calm, 1), found.full_years)
                       : fmt::format(
                             "calm {} % of the time; high winds from a Weibull fit to the "
                             "classes: {} full years are fewer than {}",
                             fixed(100.0 * found.rose.calm, 1), found.full_years, kFewestYears);
  opening.reports.push_back(std::move(report));
  return found.rose;
}

/// By its name's ending.
bool is_series(const FileRef& file) {
  const std::string ending = lower_ascii(file.path.extension().string());
  return ending == ".nc" || ending == ".nc4" || ending == ".cdf";
}

}  // namespace

WindRose read_winds(const WavesPlan& plan, Opening& opening) {
  opening.files.push_back(plan.winds);
  if (is_series(plan.winds)) {
    return rose_of_series(plan, opening);
  }
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
