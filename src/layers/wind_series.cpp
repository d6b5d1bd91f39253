// SPDX-License-Identifier: Apache-2.0
#include "wind_series.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <set>
#include <stdexcept>

#include "layer_units.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/core/wind.hpp"

namespace tidelot {
namespace {

constexpr std::array<std::string_view, 4> kNames{"eastward_wind", "northward_wind", "wind_speed",
                                                 "wind_from_direction"};
constexpr std::size_t kSectors = 16;
constexpr double kStep_deg = 360.0 / kSectors;
constexpr double kMaxSpeed = 100.0;  // m/s
constexpr double kFull = 0.9;        // of a year's days and steps

[[noreturn]] void fail(const std::string& key, const std::string& written,
                       const std::string& what) {
  throw Error(Fault::input, fmt::format("{}: {}: {}", key, written, what));
}

/// m/s of a variable's unit: the units of current are those of any speed.
std::vector<double> metres_per_second(const TimeSeries::Variable& variable, const std::string& key,
                                      const std::string& written, std::string& text) {
  const UnitChoice unit = choose_unit(key, written, Quantity::current, "", variable.unit);
  text = unit.text;
  std::vector<double> values;
  values.reserve(variable.values.size());
  for (const double value : variable.values) {
    values.push_back(unit.conversion(value));
  }
  return values;
}

double turned(double degrees) {
  const double rest = std::fmod(degrees, 360.0);
  return rest < 0.0 ? rest + 360.0 : rest;
}

/// Speeds and directions of all steps, NaN where missing.
struct Raw {
  std::vector<double> speeds, from_deg;
  std::string unit;
};

Raw from_components(const TimeSeries::Variable& east, const TimeSeries::Variable& north,
                    const std::string& key, const std::string& written) {
  Raw raw;
  const std::vector<double> u = metres_per_second(east, key, written, raw.unit);
  const std::vector<double> v = metres_per_second(north, key, written, raw.unit);
  for (std::size_t i = 0; i < u.size(); ++i) {
    raw.speeds.push_back(std::hypot(u[i], v[i]));
    raw.from_deg.push_back(turned(std::atan2(-u[i], -v[i]) * 180.0 / std::numbers::pi));
  }
  return raw;
}

Raw from_direction(const TimeSeries::Variable& speed, const TimeSeries::Variable& from,
                   const std::string& key, const std::string& written) {
  if (!from.unit.empty() && !lower_ascii(from.unit).starts_with("degree")) {
    fail(key, written,
         fmt::format("its wind_from_direction is in \"{}\"; write it in degrees", from.unit));
  }
  Raw raw;
  raw.speeds = metres_per_second(speed, key, written, raw.unit);
  for (const double degrees : from.values) {
    raw.from_deg.push_back(turned(degrees));
  }
  return raw;
}

Raw raw_winds(const TimeSeries& series, const std::string& key, const std::string& written) {
  const auto* east = series.find(kNames[0]);
  const auto* north = series.find(kNames[1]);
  if (east != nullptr && north != nullptr) {
    return from_components(*east, *north, key, written);
  }
  const auto* speed = series.find(kNames[2]);
  const auto* from = series.find(kNames[3]);
  if (speed != nullptr && from != nullptr) {
    return from_direction(*speed, *from, key, written);
  }
  fail(key, written,
       "has no wind with its direction; give it variables of the standard names eastward_wind and "
       "northward_wind, or wind_speed and wind_from_direction");
}

std::size_t sector_of(double from_deg) {
  return static_cast<std::size_t>(std::lround(from_deg / kStep_deg)) % kSectors;
}

/// What the winds of one year came to.
struct Year {
  std::set<std::int64_t> days;
  std::size_t steps = 0;
  std::array<double, kSectors> highest{};
};

std::map<int, Year> years_of(const WindSteps& steps, CfCalendar calendar) {
  std::map<int, Year> years;
  for (std::size_t i = 0; i < steps.speeds.size(); ++i) {
    Year& year = years[steps.days[i].year];
    year.days.insert(cf_day_number(calendar, steps.days[i]));
    ++year.steps;
    double& highest = year.highest[sector_of(steps.from_deg[i])];
    highest = std::max(highest, steps.speeds[i]);
  }
  return years;
}

std::vector<const Year*> full_ones(const std::map<int, Year>& years) {
  std::size_t fullest = 0;
  for (const auto& [number, year] : years) {
    fullest = std::max(fullest, year.steps);
  }
  std::vector<const Year*> out;
  for (const auto& [number, year] : years) {
    if (static_cast<double>(year.days.size()) >= kFull * 365.0 &&
        static_cast<double>(year.steps) >= kFull * static_cast<double>(fullest)) {
      out.push_back(&year);
    }
  }
  return out;
}

void fit_maxima(const std::vector<const Year*>& years, std::size_t number, WindSector& sector) {
  std::vector<double> maxima;
  maxima.reserve(years.size());
  for (const Year* year : years) {
    maxima.push_back(year->highest[number]);
  }
  const double once_a_year = gumbel_return_speed(maxima, 1.0);
  if (once_a_year > 0.0) {
    sector.speed_1y = once_a_year;
    sector.speed_50y = gumbel_return_speed(maxima, 50.0);
  }
}

/// Shares of the time in classes of 1 m/s, each with the mean of its speeds.
std::vector<WindClass> classes_of(const std::map<int, std::pair<std::size_t, double>>& counted,
                                  std::size_t steps) {
  std::vector<WindClass> classes;
  for (const auto& [floor, cell] : counted) {
    const auto n = static_cast<double>(cell.first);
    classes.push_back({cell.second / n, n / static_cast<double>(steps)});
  }
  return classes;
}

}  // namespace

const TimeSeries::Variable* TimeSeries::find(std::string_view standard_name) const {
  const auto found = std::find_if(variables.begin(), variables.end(), [&](const Variable& v) {
    return v.standard_name == standard_name;
  });
  return found == variables.end() ? nullptr : &*found;
}

std::span<const std::string_view> wind_names() { return kNames; }

WindSteps wind_steps(const TimeSeries& series, double height_m, const std::string& key,
                     const std::string& written) {
  const Raw raw = raw_winds(series, key, written);
  WindSteps steps;
  steps.unit = raw.unit;
  try {
    const CfTimeAxis axis = parse_cf_time(series.time_unit, series.calendar);
    for (std::size_t i = 0; i < raw.speeds.size(); ++i) {
      if (std::isnan(raw.speeds[i]) || std::isnan(raw.from_deg[i])) {
        ++steps.missing;
        continue;
      }
      if (raw.speeds[i] < 0.0 || raw.speeds[i] > kMaxSpeed) {
        fail(key, written,
             fmt::format("step {}: a wind of {} m/s is not believed (0 to {}); the unit is surely "
                         "another one",
                         i + 1, shortest(raw.speeds[i]), shortest(kMaxSpeed)));
      }
      steps.days.push_back(cf_date(axis, series.times[i]));
      steps.speeds.push_back(wind_at_10m(raw.speeds[i], height_m));
      steps.from_deg.push_back(raw.from_deg[i]);
    }
  } catch (const std::invalid_argument& problem) {
    fail(key, written, problem.what());
  }
  if (steps.speeds.empty()) {
    fail(key, written, "holds no wind that is known");
  }
  return steps;
}

SeriesRose series_rose(const WindSteps& steps, CfCalendar calendar) {
  std::array<std::map<int, std::pair<std::size_t, double>>, kSectors> counted;
  std::size_t calm = 0;
  for (std::size_t i = 0; i < steps.speeds.size(); ++i) {
    if (steps.speeds[i] <= 0.0) {
      ++calm;
      continue;
    }
    auto& [count, sum] = counted[sector_of(steps.from_deg[i])][static_cast<int>(steps.speeds[i])];
    ++count;
    sum += steps.speeds[i];
  }
  const std::map<int, Year> years = years_of(steps, calendar);
  const std::vector<const Year*> full = full_ones(years);
  SeriesRose out;
  out.full_years = full.size();
  out.rose.calm = static_cast<double>(calm) / static_cast<double>(steps.speeds.size());
  for (std::size_t s = 0; s < kSectors; ++s) {
    WindSector sector;
    sector.from_deg = static_cast<double>(s) * kStep_deg;
    sector.classes = classes_of(counted[s], steps.speeds.size());
    if (full.size() >= kFewestYears && !sector.classes.empty()) {
      fit_maxima(full, s, sector);
    }
    out.rose.sectors.push_back(std::move(sector));
  }
  return out;
}

}  // namespace tidelot
