// SPDX-License-Identifier: Apache-2.0
#include "raster_field.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "area_window.hpp"
#include "current_parts.hpp"
#include "months.hpp"
#include "step_means.hpp"
#include "step_use.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

constexpr double kMaxOutside = 0.001;  // share of values beyond belief that is put down to noise
constexpr double kFinePixels = 4.0;    // source pixels a cell: pixels smaller than half a cell

[[noreturn]] void refuse(const RasterWish& wish, const FileRef& file, const std::string& what) {
  throw Error(Fault::input, fmt::format("{}: {}: {}", wish.key, file.written, what));
}

/// One file of a layer, opened and read.
struct OpenFile {
  FileRef file;
  RasterInfo info;  ///< of the whole file
  UnitChoice unit;
  AreaWindow window;
  std::string operation;
  std::size_t lattice = 0;
  PreparedRaster prepared;
  YearNodes nodes = YearNodes::one;
  std::string steps_said;
  bool has_axis = false;
};

[[noreturn]] void refuse_no_overlap(const RasterWish& wish, const FileRef& file,
                                    const RasterInfo& info, const Opening& opening) {
  const auto to_degrees = opening.opener.projector(info.crs, "EPSG:4326", wish.key, opening.bounds);
  refuse(wish, file, no_overlap_text(degrees_of(info, *to_degrees), opening.bounds));
}

StepUse use_of_bands(const RasterWish& wish, const FileRef& file, const RasterInfo& info,
                     bool one_of_twelve, Opening& opening) {
  const StepWish steps{wish.key, file.written, wish.steps, wish.line_depth_m};
  const bool several = info.bands > std::max(1, static_cast<int>(info.levels_m.size()));
  if (wish.monthly && !one_of_twelve) {
    return use_of_steps(info, steps);
  }
  if (several && one_of_twelve) {
    refuse(wish, file, fmt::format("has {} bands; a file of one month needs just one", info.bands));
  }
  if (wish.monthly) {
    return use_of_one_step(info, steps);
  }
  if (info.bands > 1) {
    opening.warnings.push_back(fmt::format("{}: {}: has {} bands; the first is taken", wish.key,
                                           file.written, info.bands));
  }
  StepUse first;
  first.plain = {0};
  return first;
}

/// How many values of a file stay in memory.
std::size_t most_values(const RasterWish& wish, const OpenFile& open, bool one_of_twelve) {
  if (!wish.monthly) {
    return kept_pixels(open.info, open.window.window, open.file.remote);
  }
  return one_of_twelve ? kMemoryValues / kMonths : kMemoryValues;
}

PreparedRaster prepared(std::vector<std::unique_ptr<RasterSource>> parts, const Window& window,
                        StepUse use, std::optional<Screen> screen, std::size_t memory_values) {
  if (parts.size() == 1 && !use.plain.empty()) {
    return prepare(std::move(parts[0]), window, use.plain, screen, memory_values);
  }
  return prepare_steps({std::move(parts), std::move(use), std::move(screen)}, window,
                       memory_values);
}

OpenFile open_file(const RasterWish& wish, const FileRef& file, bool one_of_twelve,
                   Opening& opening) {
  OpenFile open;
  open.file = file;
  std::vector<std::unique_ptr<RasterSource>> parts;
  parts.push_back(opening.opener.open_raster(file, wish.key));
  open.info = parts[0]->info();
  if (const std::string what = wish.objection ? wish.objection(open.info) : ""; !what.empty()) {
    refuse(wish, file, what);
  }
  open.unit = unit_of(wish, file, open.info.unit);
  StepUse use = use_of_bands(wish, file, open.info, one_of_twelve, opening);
  if (!wish.northward.empty()) {
    NorthwardPart north = open_northward(wish, file, open.info, opening);
    parts.push_back(std::move(north.source));
    open.has_axis = north.says_direction;
  }
  open.nodes = use.nodes;
  open.steps_said = use.said;
  opening.warnings.insert(opening.warnings.end(), use.warnings.begin(), use.warnings.end());
  auto projector =
      opening.opener.projector(opening.grid.crs, open.info.crs, wish.key, opening.bounds);
  open.operation = projector->operation();
  const auto window = area_window(opening.grid, *projector, open.info);
  if (!window) {
    refuse_no_overlap(wish, file, open.info, opening);
  }
  open.window = *window;
  open.prepared = prepared(std::move(parts), window->window, std::move(use),
                           screen_of(wish, open.unit), most_values(wish, open, one_of_twelve));
  open.lattice = lattice_of(opening, open.prepared.source->info(), std::move(projector));
  return open;
}

/// The bands stand in the order of the year once a file is prepared.
Field field_of(std::vector<OpenFile>& files) {
  Field field;
  field.conversion = files[0].unit.conversion;
  field.nodes = files.size() > 1 ? YearNodes::months : files[0].nodes;
  field.band.clear();
  for (int node = 0; node < count_of(field.nodes); ++node) {
    field.band.push_back(files.size() > 1 ? Field::Band{static_cast<std::size_t>(node), 0}
                                          : Field::Band{0, node});
  }
  for (OpenFile& file : files) {
    field.parts.push_back({std::move(file.prepared.source), file.lattice});
  }
  return field;
}

void check_same_unit(const RasterWish& wish, const std::vector<OpenFile>& files) {
  for (const OpenFile& file : files) {
    if (file.unit.conversion.scale != files[0].unit.conversion.scale ||
        file.unit.conversion.offset != files[0].unit.conversion.offset) {
      refuse(wish, file.file, "is in another unit than the first month's file");
    }
  }
}

std::string what_of(const std::vector<OpenFile>& files) {
  const RasterInfo& info = files[0].info;
  return fmt::format("{}{} raster, {} x {}, {} band{}", files.size() > 1 ? "12 x " : "",
                     info.format, info.cols, info.rows, info.bands, info.bands == 1 ? "" : "s");
}

std::string basis_of(const OpenFile& file) {
  std::string basis = "from the file; " + file.unit.basis;
  return file.info.crs_basis.empty() ? basis : basis + "; " + file.info.crs_basis;
}

void add_report(const RasterWish& wish, const std::vector<OpenFile>& files, Opening& opening) {
  const OpenFile& first = files[0];
  LayerReport report;
  report.key = wish.key;
  report.file = wish.file.written;
  report.what = what_of(files);
  report.times = first.info.times;
  report.unit = first.unit.text;
  report.crs = first.info.crs_name;
  report.operation = first.operation;
  report.basis = basis_of(first);
  report.steps = first.steps_said;
  report.gap = longest_gap(first.info);
  report.varies = true;
  if (first.window.pixels_per_cell > kFinePixels) {
    report.verdict = fmt::format("{:.0f} source pixels a cell; values are taken at the centre",
                                 first.window.pixels_per_cell);
  }
  if (!first.info.crs_basis.empty()) {
    opening.warnings.push_back(
        fmt::format("{}: {}: {}", wish.key, first.file.written, first.info.crs_basis));
  }
  if (wish.monthly && files.size() == 1 && first.info.bands == 1) {
    opening.warnings.push_back(
        fmt::format("{}: {}: one band, taken for all twelve months", wish.key, first.file.written));
  }
  opening.reports.push_back(std::move(report));
}

}  // namespace

Field unknown_field() {
  Field field;
  field.constant.fill(std::numeric_limits<double>::quiet_NaN());
  return field;
}

void add_problem(const std::string& key, const Error& problem, Opening& opening) {
  LayerReport report;
  report.key = key;
  report.what = "not read";
  report.cover = 0.0;
  report.verdict = std::string("to mend: ") + problem.what();
  opening.reports.push_back(std::move(report));
  opening.problems->push_back(problem);
}

UnitChoice unit_of(const RasterWish& wish, const FileRef& file, const std::string& file_unit) {
  if (!wish.quantity) {
    return {{}, wish.unit.empty() ? file_unit : wish.unit, "values as they are"};
  }
  UnitChoice unit = choose_unit(wish.key, file.written, *wish.quantity, wish.unit, file_unit);
  unit.conversion.scale *= wish.sign;
  unit.conversion.offset *= wish.sign;
  return unit;
}

std::optional<Screen> screen_of(const RasterWish& wish, const UnitChoice& unit) {
  if (!wish.quantity) {
    return std::nullopt;
  }
  const PlausibleRange range = wish.range.value_or(plausible_range(*wish.quantity));
  return Screen{unit.conversion, range.low, range.high,
                std::string(canonical_unit(*wish.quantity))};
}

void check_range(const RasterWish& wish, const PixelStats& stats, Opening& opening) {
  if (stats.outside == 0) {
    return;
  }
  const auto range = wish.range.value_or(plausible_range(*wish.quantity));
  const std::string unit(canonical_unit(*wish.quantity));
  const std::string believed =
      fmt::format("{} to {} {}", shortest(range.low), shortest(range.high), unit);
  if (static_cast<double>(stats.outside) > kMaxOutside * static_cast<double>(stats.data)) {
    refuse(
        wish, wish.file,
        fmt::format("{:.1f} % of its values over the area cannot be {}: they run from {:.6g} to "
                    "{:.6g} {}, {} is believed; correct {}.unit, or declare the value that means "
                    "no data (gdal_translate -a_nodata)",
                    100.0 * static_cast<double>(stats.outside) / static_cast<double>(stats.data),
                    name(*wish.quantity), stats.low, stats.high, unit, believed, wish.key));
  }
  opening.warnings.push_back(
      fmt::format("{}: {}: {} values outside {} (or a usual mark of no data) are taken as unknown",
                  wish.key, wish.file.written, stats.outside, believed));
}

std::size_t lattice_of(Opening& opening, const RasterInfo& info,
                       std::unique_ptr<Projector> grid_to_source) {
  auto& all = opening.lattices;
  const auto found = std::find_if(all.begin(), all.end(), [&](const Lattice& lattice) {
    return is_same_lattice(lattice.info, info);
  });
  if (found != all.end()) {
    return static_cast<std::size_t>(found - all.begin());
  }
  all.push_back({info, std::move(grid_to_source)});
  return all.size() - 1;
}

FileField open_raster_field(const RasterWish& wish, Opening& opening) {
  const auto refs = wish.monthly ? month_files(wish.file) : std::vector<FileRef>{wish.file};
  std::vector<OpenFile> files;
  FileField result;
  for (const FileRef& ref : refs) {
    opening.files.push_back(ref);
    files.push_back(open_file(wish, ref, refs.size() > 1, opening));
    result.stats.add(files.back().prepared.stats);
  }
  check_same_unit(wish, files);
  check_range(wish, result.stats, opening);
  add_report(wish, files, opening);
  result.positive = files[0].info.positive;
  result.standard_name = files[0].info.standard_name;
  const bool has_axis = files[0].has_axis;
  result.field = field_of(files);
  if (has_axis) {
    const int first = count_of(result.field.nodes);
    Field& axis = result.axis.emplace();
    axis.parts.push_back({result.field.parts[0].source->clone(), result.field.parts[0].lattice});
    axis.band = {{0, first}, {0, first + 1}};
  }
  return result;
}

}  // namespace tidelot
