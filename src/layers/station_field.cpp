// SPDX-License-Identifier: Apache-2.0
#include "station_field.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <numeric>
#include <utility>

#include "layer_units.hpp"
#include "station_water.hpp"
#include "surface_raster.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

constexpr std::size_t kMaxBytes = 64'000'000;

std::string text_of(const Day& day) {
  return fmt::format("{:04}-{:02}-{:02}", day.year, day.month, day.day);
}

Readings read(const StationWish& wish, Opening& opening) {
  const StationsRef& source = wish.source;
  const std::string table = opening.opener.read_text(source.file, wish.key, kMaxBytes);
  opening.files.push_back(source.file);
  std::string stations;
  if (source.station_file) {
    stations =
        opening.opener.read_text(*source.station_file, wish.key + ".station_file", kMaxBytes);
    opening.files.push_back(*source.station_file);
  }
  return read_readings(wish, table, stations);
}

std::vector<StationMonth> months_of(const std::vector<StationMeans>& places,
                                    const Surfaces& surfaces) {
  std::vector<StationMonth> months(kMonths);
  for (std::size_t m = 0; m < kMonths; ++m) {
    for (const StationMeans& place : places) {
      months[m].places += place.days[m] > 0 ? 1 : 0;
      months[m].readings += place.days[m];
    }
    months[m].filled = surfaces.filled[m];
    months[m].left_out = surfaces.left_out[m].count;
    months[m].rmse = surfaces.left_out[m].rmse;
    months[m].bias = surfaces.left_out[m].bias;
  }
  return months;
}

void set_error(const StationWish& wish, const std::string& unit, std::optional<double> planned,
               const LeftOut& left_out, LayerReport& report) {
  report.error_unit = std::string(canonical_unit(wish.quantity));
  if (planned) {
    keep_planned_error(planned, wish.quantity,
                       conversion(wish.quantity, unit).value_or(Conversion{}), report);
  } else if (left_out.count > 0) {
    report.error = left_out.rmse;
    report.error_basis =
        fmt::format("each of the places left out in turn, {} values", left_out.count);
  }
}

std::string verdict_of(const Surfaces& surfaces, Quantity quantity) {
  const LeftOut& all = surfaces.all;
  if (all.count == 0) {
    return "no place can be left out and told from others: the error of the surface is not known";
  }
  return fmt::format("left out in turn: off by {} {} (RMSE), bias {}, {} values",
                     fixed(all.rmse, 3), canonical_unit(quantity), fixed(all.bias, 3), all.count);
}

std::string filled_months(const Surfaces& surfaces) {
  std::string out;
  for (int m = 0; m < kMonths; ++m) {
    if (surfaces.filled[static_cast<std::size_t>(m)]) {
      out += (out.empty() ? "" : ", ") + std::string(month_name(m));
    }
  }
  return out;
}

void add_warnings(const StationWish& wish, const Readings& readings, const AllMeans& means,
                  const Surfaces& surfaces, Opening& opening) {
  for (const std::string& note : readings.notes) {
    warn_of(wish, note, opening);
  }
  if (means.merged > 0) {
    warn_of(wish,
            fmt::format("{} further readings of the same place and day went into that day's mean",
                        means.merged),
            opening);
  }
  if (const std::string filled = filled_months(surfaces); !filled.empty()) {
    warn_of(wish,
            fmt::format("no reading in {}: filled on the line between the months before and after",
                        filled),
            opening);
  }
}

int readings_in(const std::vector<StationMonth>& months) {
  return std::accumulate(months.begin(), months.end(), 0,
                         [](int sum, const StationMonth& month) { return sum + month.readings; });
}

/// The longest run of months without a reading, round the year.
std::string longest_gap(const std::vector<StationMonth>& months) {
  int longest = 0;
  int run = 0;
  for (int m = 0; m < 2 * kMonths; ++m) {
    run = months[static_cast<std::size_t>(m % kMonths)].filled ? run + 1 : 0;
    longest = std::max(longest, std::min(run, kMonths));
  }
  return longest == 0 ? ""
                      : fmt::format("{} month{} of the year", longest, longest == 1 ? "" : "s");
}

LayerReport bare_report(const StationWish& wish, const Readings& readings) {
  LayerReport report;
  report.key = wish.key;
  report.file = wish.source.file.written;
  report.unit = readings.unit;
  report.crs = "WGS 84";
  return report;
}

std::string basis_of(const StationWish& wish, const Readings& readings, const Afloat& afloat) {
  const Grid& lattice = afloat.way->grid();
  return fmt::format(
      "from the file, {}; spread through the water with weights (distance^2 + {}^2)^(-{}/2), "
      "distances on a lattice of {} m ({} cell{} a side), right to about one of its cells and 3 %",
      readings.basis, shortest(wish.source.nugget_m), shortest(wish.source.power),
      shortest(lattice.cell_m), afloat.block, afloat.block == 1 ? "" : "s");
}

void add_report(const StationWish& wish, const Readings& readings, const AllMeans& means,
                const Afloat& afloat, const Surfaces& surfaces, std::optional<double> error,
                Opening& opening) {
  LayerReport report = bare_report(wish, readings);
  report.months = months_of(afloat.places, surfaces);
  report.what = fmt::format("stations, {} place{}, {} days with readings, {} to {}",
                            afloat.places.size(), afloat.places.size() == 1 ? "" : "s",
                            readings_in(report.months), text_of(means.first), text_of(means.last));
  report.gap = longest_gap(report.months);
  report.times = text_of(means.first) + " to " + text_of(means.last);
  report.verdict = verdict_of(surfaces, wish.quantity);
  report.varies = true;
  report.operation = afloat.operation;
  report.basis = basis_of(wish, readings, afloat);
  set_error(wish, readings.usual_unit, error, surfaces.all, report);
  opening.reports.push_back(std::move(report));
}

/// While problems are gathered, without the depth: the table was read, no more can be done.
Field not_spread(const StationWish& wish, const Readings& readings, Opening& opening) {
  LayerReport report = bare_report(wish, readings);
  report.what = fmt::format("stations, {} readings", readings.all.size());
  report.verdict = "not spread: the depth is to be mended first";
  report.cover = 0.0;
  opening.reports.push_back(std::move(report));
  Field field;
  field.constant.fill(std::numeric_limits<double>::quiet_NaN());
  return field;
}

}  // namespace

Field field_of(const Surfaces& surfaces, const Grid& lattice, int block, Opening& opening) {
  Field field;
  field.nodes = YearNodes::months;
  field.spread = true;
  auto raster = surface_raster(surfaces, lattice, block);
  const std::size_t index = lattice_of(
      opening, raster->info(),
      opening.opener.projector(opening.grid.crs, opening.grid.crs, "area.crs", opening.bounds));
  field.parts.push_back({std::move(raster), index});
  for (std::size_t m = 0; m < kMonths; ++m) {
    field.band.push_back({0, static_cast<int>(m)});
  }
  return field;
}

Field open_station_field(const StationWish& wish, std::optional<double> error, Opening& opening) {
  const Readings readings = read(wish, opening);
  if (!opening.depth) {
    return not_spread(wish, readings, opening);
  }
  const AllMeans means = monthly_means(readings.all);
  const Afloat afloat = put_afloat(wish, means.places, opening);
  const Surfaces surfaces =
      spread(*afloat.way, afloat.means, {wish.source.power, wish.source.nugget_m});
  add_warnings(wish, readings, means, surfaces, opening);
  add_report(wish, readings, means, afloat, surfaces, error, opening);
  Field field = field_of(surfaces, afloat.way->grid(), afloat.block, opening);
  field.conversion.per_mass = readings.per_mass;
  return field;
}

}  // namespace tidelot
