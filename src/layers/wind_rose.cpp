// SPDX-License-Identifier: Apache-2.0
#include "tidelot/layers/wind_rose.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>

#include "tidelot/core/text.hpp"
#include "tidelot/core/wind.hpp"

namespace tidelot {
namespace {

constexpr double kMaxSpeed = 100.0;   // m/s
constexpr double kSumSlack = 0.005;   // shares are printed rounded
constexpr double kAngleSlack = 0.01;  // degrees
constexpr std::size_t kFewestSectors = 4;

[[noreturn]] void fail(const std::string& what) { throw std::invalid_argument(what); }

std::optional<std::size_t> find_column(const CsvTable& table, std::string_view name) {
  for (std::size_t i = 0; i < table.header.size(); ++i) {
    if (lower_ascii(table.header[i]) == name) {
      return i;
    }
  }
  return std::nullopt;
}

std::size_t need_column(const CsvTable& table, std::string_view name) {
  const auto found = find_column(table, name);
  if (!found) {
    fail(fmt::format(
        "has no column \"{}\"; a wind rose needs direction (degrees, from), speed (m/s) "
        "and share (0 to 1) or percent",
        name));
  }
  return *found;
}

double number_in(const CsvRow& row, std::size_t column, const CsvTable& table, double low,
                 double high) {
  const auto value = csv_number(row.cells[column]);
  if (!value || *value < low || *value > high) {
    fail(fmt::format("row {}: {} must be a number from {} to {}, not \"{}\"", row.number,
                     table.header[column], shortest(low), shortest(high), row.cells[column]));
  }
  return *value;
}

/// A speed that stands in every row of a direction; 0 where the column is missing or the cell
/// empty.
double repeated(const CsvRow& row, std::optional<std::size_t> column, const CsvTable& table,
                double before) {
  if (!column || row.cells[*column].empty()) {
    return before;
  }
  const double value = number_in(row, *column, table, 0.0, kMaxSpeed);
  if (before != 0.0 && before != value) {
    fail(fmt::format("row {}: {} differs from an earlier row of the same direction", row.number,
                     table.header[*column]));
  }
  return value;
}

/// The directions must be evenly spaced, or a share would not belong to a known sector.
void check_even(const std::vector<WindSector>& sectors) {
  const double step = 360.0 / static_cast<double>(sectors.size());
  for (std::size_t i = 0; i < sectors.size(); ++i) {
    const double expected = sectors[0].from_deg + static_cast<double>(i) * step;
    if (std::abs(sectors[i].from_deg - expected) > kAngleSlack) {
      fail(
          fmt::format("its {} directions are not evenly spaced round the compass ({} where {} was "
                      "expected)",
                      sectors.size(), shortest(sectors[i].from_deg), shortest(expected)));
    }
  }
}

/// What is exceeded once in fifty years is exceeded no oftener than what is once a year.
void check_high_winds(const WindSector& sector) {
  if (sector.speed_50y != 0.0 && sector.speed_50y < sector.speed_1y) {
    fail(fmt::format(
        "direction {}: speed_50y ({}) is below speed_1y ({}); were the two columns "
        "swapped?",
        shortest(sector.from_deg), shortest(sector.speed_50y), shortest(sector.speed_1y)));
  }
}

}  // namespace

WindRose wind_rose(const CsvTable& table, double height_m) {
  const std::size_t direction = need_column(table, "direction");
  const std::size_t speed = need_column(table, "speed");
  const bool in_percent = !find_column(table, "share") && find_column(table, "percent");
  const std::size_t share = need_column(table, in_percent ? "percent" : "share");
  const auto once_a_year = find_column(table, "speed_1y");
  const auto once_in_fifty = find_column(table, "speed_50y");
  const double whole = in_percent ? 100.0 : 1.0;
  const double to_10m = wind_at_10m(1.0, height_m);

  std::map<double, WindSector> by_direction;
  double sum = 0.0;
  for (const CsvRow& row : table.rows) {
    const double from = std::fmod(number_in(row, direction, table, 0.0, 360.0), 360.0);
    WindSector& sector = by_direction[from];
    sector.from_deg = from;
    const double part = number_in(row, share, table, 0.0, whole) / whole;
    sector.classes.push_back({number_in(row, speed, table, 0.0, kMaxSpeed) * to_10m, part});
    sector.speed_1y = repeated(row, once_a_year, table, sector.speed_1y);
    sector.speed_50y = repeated(row, once_in_fifty, table, sector.speed_50y);
    sum += part;
  }
  WindRose rose;
  for (auto& [from, sector] : by_direction) {
    check_high_winds(sector);
    sector.speed_1y *= to_10m;
    sector.speed_50y *= to_10m;
    rose.sectors.push_back(std::move(sector));
  }
  if (rose.sectors.size() < kFewestSectors) {
    fail(fmt::format("names {} directions; {} at least are needed", rose.sectors.size(),
                     kFewestSectors));
  }
  if (sum > 1.0 + kSumSlack) {
    fail(
        fmt::format("its shares add up to {} of all time; they are shares of the whole time, calm "
                    "left out{}",
                    shortest(sum), in_percent ? "" : " (or name the column percent)"));
  }
  check_even(rose.sectors);
  rose.calm = std::max(0.0, 1.0 - sum);
  return rose;
}

}  // namespace tidelot
