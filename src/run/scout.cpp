// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <functional>
#include <future>

#include "geoio/geoio.hpp"
#include "report/folder/folder_owner.hpp"
#include "report/folder/os_file.hpp"
#include "report/words/spread_words.hpp"
#include "run/area.hpp"
#include "run/compare/bay.hpp"
#include "run/memory/folder_room.hpp"
#include "run/memory/memory.hpp"
#include "run/memory/page_keeper.hpp"
#include "run/record/record.hpp"
#include "run/resume/identity.hpp"
#include "run/resume/input_watch.hpp"
#include "run/resume/part_file.hpp"
#include "run/resume/ranks.hpp"
#include "run/resume/tile_ledger.hpp"
#include "run/sites/site_centre.hpp"
#include "run/sites/site_farm.hpp"
#include "run/sites/site_field.hpp"
#include "run/sites/site_limits.hpp"
#include "run/sites/site_positions.hpp"
#include "run/sites/site_spread.hpp"
#include "run/stages.hpp"
#include "run/tiles/grid_parts.hpp"
#include "run/tiles/map_files.hpp"
#include "run/tiles/tile_loop.hpp"
#include "run/tiles/what_if.hpp"
#include "run/workers.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/report/output_folder.hpp"
#include "tidelot/report/report.hpp"
#include "tidelot/report/styles.hpp"
#include "tidelot/run.hpp"

namespace tidelot {
namespace {

using run::Area;
using run::Maps;
using run::Scored;
using run::Stages;
using run::stop_if_asked;
using run::TileLoop;
using Clock = std::chrono::steady_clock;

std::filesystem::path ledger_in(const OutputFolder& folder) {
  return folder.unfinished() / "tiles";
}

BayMembers members_of(const run::MemberCells& counted, const Grid& grid, double areal_scale) {
  const double cell_ha = grid.cell_m * grid.cell_m / areal_scale / 1e4;
  BayMembers out;
  out.water_ha = run::hectares(counted.water, cell_ha);
  out.open_ha = run::hectares(counted.open, cell_ha);
  out.suitable_ha = run::hectares(counted.suitable, cell_ha);
  return out;
}

void write_maps(const std::vector<MapFile>& files, const Grid& grid, OutputFolder& folder,
                const RunOptions& options) {
  std::vector<std::filesystem::path> paths;
  std::vector<std::size_t> order;
  for (const MapFile& file : files) {
    order.push_back(paths.size());
    paths.push_back(folder.staged("maps/" + file.name));
  }
  // The file with most bands first, so that no worker is left alone with it at the end.
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return files[a].bands.size() > files[b].bands.size();
  });
  run::for_each(files.size(), run::workers_for(options.threads), options.stop_signal,
                [&](std::size_t i, int) {
                  const std::size_t file = order[i];
                  geoio::make_map_writer()->write_map(paths[file], grid, files[file]);
                });
}

ReportData report_data(const Plan& plan, const Area& area, const Maps& maps,
                       const RunSummary& summary) {
  ReportData data;
  data.plan = &plan;
  data.grid = &area.layers->grid();
  data.grid_crs_name = summary.grid_crs_name;
  data.maps = maps.view();
  data.ranges = ranges_of(data.maps);
  data.closed = area.layers->closed();
  data.near = area.layers->near();
  data.layers = area.layers->reports();
  data.reason_names = summary.reason_names;
  data.warnings = summary.warnings;
  data.sites = &summary.sites;
  data.counts = summary.counts;
  data.what_if = summary.what_if ? &*summary.what_if : nullptr;
  data.grid_corners = area.corners;
  data.grid_convergence_deg = -area.convergence_deg;  // true north as seen from grid north
  data.grid_scale = area.scale;
  data.grid_scale_error = area.scale_error;
  return data;
}

WhatIf moved_rules(const Plan& plan, const Area& area, const Maps& maps, const RunSummary& summary,
                   const SiteSearch& search, const Geodesy& geodesy, const RunOptions& options) {
  const Grid& grid = area.layers->grid();
  const run::ScoredRun scored{grid,
                              maps,
                              summary.sites,
                              search,
                              summary.counts.open,
                              grid.cell_m * grid.cell_m / area.areal_scale / 1e4,
                              area.scale,
                              *area.to_lonlat,
                              geodesy};
  return run::what_if(scored, {plan, area.layers->closed(), area.layers->near()}, options.threads,
                      options.stop_signal);
}

void write_site_files(const Plan& plan, const ReportData& data, const RunOptions& options,
                      RunSummary& summary, OutputFolder& folder) {
  const EachOf each = [&](std::size_t count, const std::function<void(std::size_t)>& task) {
    run::for_each(count, run::workers_for(options.threads), options.stop_signal,
                  [&](std::size_t item, int) { task(item); });
  };
  const auto writer = geoio::make_map_writer();
  const auto& sites = summary.sites.ranked;
  writer->write_geopackage(folder.staged("sites.gpkg"), sites, plan);
  folder.write("sites.geojson", sites_geojson(sites, plan));
  folder.write("sites.csv", sites_csv(sites, plan));
  folder.write("load.csv", load_csv(sites, plan, summary.sites.set_spread));
  folder.write("sites.gpx", sites_gpx(sites, plan));
  folder.write("report.html", report_html(data, *writer, each));
  folder.write("field_sheet.html", field_sheet_html(data));
  folder.write("field_readings.csv", field_readings_csv(summary.sites));
  SheetSet sheets = sheets_html(data);
  folder.write("sheets.html", sheets.html);
  summary.sheets = sheets.sheets;
  summary.sheets_left_out = std::move(sheets.left_out);
}

std::vector<std::string> output_names(const std::vector<MapFile>& maps,
                                      const std::vector<StyleFile>& styles) {
  std::vector<std::string> names;
  names.reserve(maps.size() + styles.size());
  for (const MapFile& map : maps) {
    names.push_back("maps/" + map.name);
  }
  for (const StyleFile& style : styles) {
    names.push_back(style.name);
  }
  for (const char* name :
       {"sites.gpkg", "sites.geojson", "sites.csv", "load.csv", "sites.gpx", "report.html",
        "field_sheet.html", "field_readings.csv", "sheets.html", "run.json"}) {
    names.emplace_back(name);
  }
  return names;
}

/// The maps that the plan asks for.
run::MapChoice choice_of(const Plan& plan, const run::GridParts& parts) {
  run::MapChoice choice;
  choice.lowest = plan.combine == Combine::both;
  choice.axis = plan.current.may_have_axis();
  choice.spread = parts.members() != nullptr;
  choice.open = plan.report.what_if;
  choice.depth_sources = plan.depth.sources().size();
  return choice;
}

/// The maps in a file of the folder, and what is known of the whole grid.
Maps maps_for(const TileLoop& loop, const run::GridParts& parts, const OutputFolder& folder) {
  Maps maps(loop.grid().size(), loop.choice, folder.unfinished() / "cells");
  maps.waves = parts.waves();
  maps.landing_m = parts.landing_m();
  return maps;
}

/// What the scored maps tell, before any site is placed.
RunSummary summary_of(const Plan& plan, const Area& area, const Maps& maps,
                      const RunOptions& options) {
  RunSummary summary;
  summary.out = options.out;
  summary.grid = area.layers->grid();
  summary.grid_crs_name = area.layers->grid_crs_name();
  summary.reason_names = reason_names(plan);
  summary.closed_bit_names = closed_bit_names(plan);
  summary.warnings = area.warnings;
  summary.counts = run::count(maps, summary.grid, area.areal_scale);
  return summary;
}

/// Seasons, draw-down and members of the sites, and what the water says of the plan's dates.
void grow_sites(const Plan& plan, const Area& area, const run::GridParts& parts,
                const RunOptions& options, Stages& stages, RunSummary& summary) {
  stages.begin("growing sites", 0);
  run::add_farms(summary.sites, plan, area, options.threads, options.stop_signal);
  run::add_site_seasons(summary.sites, plan, area);
  run::add_site_water(summary.sites, area);
  if (parts.members() != nullptr) {
    stages.begin("members of the sites", 0);
    run::add_site_spreads(summary.sites, plan, area, parts.job(), options.threads,
                          options.stop_signal);
  }
  for (std::string& note : page::spread_notes(summary.sites.ranked)) {
    summary.sites.notes.push_back(std::move(note));
  }
  const auto dates = run::date_warnings(plan.farm, run::water_seasons(summary.sites.ranked));
  summary.warnings.insert(summary.warnings.end(), dates.begin(), dates.end());
}

/// Places the sites and moves the rules around them.
void place(const Plan& plan, const Area& area, const Maps& maps, const RunOptions& options,
           run::Printing& printing, Stages& stages, RunSummary& summary) {
  stages.begin("placing sites", 0);
  const auto geodesy = geoio::make_geodesy();
  SiteSearch search(plan, area.layers->grid(), maps.view(), area.layers->closed(),
                    area.layers->near(), summary.reason_names, *area.to_lonlat, *geodesy);
  summary.sites = search.place();
  printing.print(summary.sites, *geodesy);
  if (plan.report.what_if) {
    stages.begin("moving distances and limits", 0);
    summary.what_if = moved_rules(plan, area, maps, summary, search, *geodesy, options);
  }
  run::mark_field_checked(summary.sites, area.layers->field_checks().visits, area.scale);
}

/// Writes everything but run.json. What it wrote.
std::vector<std::string> write_results(const Plan& plan, const Area& area, const Maps& maps,
                                       const RunOptions& options, Stages& stages,
                                       OutputFolder& folder, RunSummary& summary) {
  stages.begin("writing maps", 0);
  const ReportData data = report_data(plan, area, maps, summary);
  std::vector<MapFile> files = run::map_files(maps, plan);
  const std::vector<StyleFile> styles = style_files(data);
  for (MapFile& file : files) {
    file.colours = style_of(styles, file.name).colours;
  }
  write_maps(files, area.layers->grid(), folder, options);
  stages.begin("writing sites and report", 0);
  for (const StyleFile& style : styles) {
    folder.write(style.name, style.sld);
  }
  write_site_files(plan, data, options, summary, folder);
  stages.end();
  return output_names(files, styles);
}

/// What is known before the first tile.
struct Ready {
  Ready(const Plan& plan, Area& area, const RunOptions& options, Stages& stages)
      : inputs(area.layers->files()),
        hashing(std::async(std::launch::async,
                           [&] { return run::identity_of(plan, area.layers->files()); })),
        parts((stages.begin("closed areas, waves and distances", 0), plan), area, options.threads,
              options.stop_signal),
        identity(hashing.get()),
        loop{plan, area, parts.job(), choice_of(plan, parts), identity.sha256, options, stages} {}

  run::InputWatch inputs;
  std::future<run::Identity> hashing;  ///< beside what the parts are worked out from
  run::GridParts parts;
  run::Identity identity;
  TileLoop loop;
};

/// Fills the maps.
using Scoring = std::function<Scored(const TileLoop&, Maps&, const OutputFolder&)>;

Scored compute(const TileLoop& loop, Maps& maps, const OutputFolder& folder) {
  run::TileLedger ledger(ledger_in(folder), loop.identity);
  return run::score_tiles(loop, maps, ledger);
}

/// What the run may hold. Error(plan) where that is more than options.memory.
run::MemoryUse memory_of(const Plan& plan, const Area& area, const RunOptions& options) {
  const run::MemoryUse use = run::memory_within(run::memory_need(plan, *area.layers),
                                                run::workers_for(options.threads), options.memory);
  geoio::hold_blocks(use.cache);
  return use;
}

/// Everything after the layers are open.
RunSummary scout_into(OutputFolder& folder, const Plan& plan, Area& area, run::Printing& printing,
                      const RunOptions& options, const run::MemoryUse& memory, Stages& stages,
                      const Scoring& scoring) {
  const Grid& grid = area.layers->grid();
  const UseRoom room(std::make_shared<run::FolderRoom>(folder.unfinished()));
  run::PageKeeper keeper(memory.pages);
  const Ready ready(plan, area, options, stages);
  const run::GridParts& parts = ready.parts;
  Maps maps = maps_for(ready.loop, parts, folder);
  const Scored scored = scoring(ready.loop, maps, folder);

  RunSummary summary = summary_of(plan, area, maps, options);
  if (options.resume) {
    summary.kept_cells = scored.kept_cells;
  }
  geoio::hold_blocks(memory.written);  // little is read of the layers from here on
  keeper.hold(memory.pages + memory.search);
  place(plan, area, maps, options, printing, stages, summary);
  keeper.hold(memory.pages);
  grow_sites(plan, area, parts, options, stages, summary);
  stop_if_asked(options);
  std::vector<std::string> written =
      write_results(plan, area, maps, options, stages, folder, summary);
  stop_if_asked(options);

  BayMembers bay_members = members_of(scored.counted.cells, grid, area.areal_scale);
  run::Record record{&plan,
                     &area,
                     &summary,
                     ready.identity.inputs,
                     std::move(written),
                     stages.timings(),
                     run::workers_for(options.threads),
                     {memory.total(), options.memory, run::peak_memory()},
                     parts.members() != nullptr ? &parts.members()->inputs() : nullptr,
                     scored.counted.lattice,
                     ready.loop.identity,
                     run::bay_of(plan, area.areal_scale, summary, std::move(bay_members))};
  folder.write("run.json", run::run_json(record));
  ready.inputs.check();
  folder.commit();
  return summary;
}

double seconds_since(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

/// The parts that stand in the folder. Error(input) unless they are all of one number of parts.
std::vector<Part> complete_parts(const Plan& plan, const RunOptions& options) {
  std::vector<Part> parts = run::parts_in(options.out);
  if (parts.empty()) {
    throw Error(Fault::input,
                fmt::format("{}: holds no part of a run; make each of them, here the first of "
                            "two: {}",
                            options.out.string(), part_command(plan, options, {1, 2})));
  }
  const Part& last = parts.back();
  if (parts.front().of != last.of) {
    throw Error(Fault::input,
                fmt::format("{} and {} are parts of different divisions of a run; remove those "
                            "that do not count",
                            run::part_path(options.out, parts.front()).string(),
                            run::part_path(options.out, last).string()));
  }
  for (int number = 1; number <= last.of; ++number) {
    const Part part{number, last.of};
    const auto i = static_cast<std::size_t>(number - 1);
    if (i >= parts.size() || parts[i].number != number) {
      throw Error(Fault::input, fmt::format("{}: part {} of {} is missing; make it: {}",
                                            run::part_path(options.out, part).string(), number,
                                            part.of, part_command(plan, options, part)));
    }
  }
  return parts;
}

/// Puts the tiles of all parts into the maps.
Scored take_parts(const TileLoop& loop, const std::vector<Part>& parts, Maps& maps) {
  run::PartReading reading;
  reading.identity = loop.identity;
  reading.members = loop.members();
  for (const run::TileGroup& group : loop.groups) {
    reading.tile_bytes.push_back(maps.bytes_a_cell() * group.area.size());
  }
  Scored out{{run::MemberCells(reading.members), {}}, 0};
  loop.stages.begin("taking the parts", loop.grid().size());
  for (const Part& part : parts) {
    run::read_part(run::part_path(loop.options.out, part), part, reading,
                   part_command(loop.plan, loop.options, part), [&](const run::TileRecord& record) {
                     stop_if_asked(loop.options);
                     const Tile& tile = loop.groups[record.tile].area;
                     maps.put(loop.grid(), tile, record.cells);
                     out.counted.add(record.counted);
                     loop.stages.advance(tile.size());
                   });
  }
  return out;
}

}  // namespace

std::filesystem::path default_out(const std::filesystem::path& plan) {
  return plan.parent_path() / (plan.stem().string() + "-out");
}

RunSummary scout(const Plan& plan, const RunOptions& options) {
  const auto start = Clock::now();
  Stages stages(options);
  stages.begin("opening layers", 0);
  Area area = run::open_area(plan, nullptr, options.stop_signal);
  run::Printing printing(plan, area);
  const run::MemoryUse memory = memory_of(plan, area, options);
  OutputFolder folder(options.out, options.resume ? Unfinished::take : Unfinished::discard);
  stop_if_asked(options);
  try {
    RunSummary summary = scout_into(folder, plan, area, printing, options, memory, stages, compute);
    summary.seconds = seconds_since(start);
    return summary;
  } catch (const Interrupted& stop) {
    if (!std::filesystem::exists(ledger_in(folder))) {
      throw;
    }
    folder.leave_unfinished();
    throw StoppedRun(stop.signal(),
                     fmt::format("what is finished is kept in {}; the same command{} goes on there",
                                 options.out.string(), options.resume ? "" : " with --resume"));
  }
}

void help_scout(const Plan& plan, const RunOptions& options) {
  Stages stages(options);
  Area area = run::open_area(plan, nullptr, options.stop_signal);
  const Ready ready(plan, area, options, stages);
  run::help_with_tiles(ready.loop);
  ready.inputs.check();
  run::leave_ranks();
}

std::string part_command(const Plan& plan, const RunOptions& options, const Part& part) {
  return fmt::format("tidelot scout {} --out {} --part {}/{}", plan.path.string(),
                     options.out.string(), part.number, part.of);
}

std::string join_command(const Plan& plan, const RunOptions& options) {
  return fmt::format("tidelot join {} --out {}", plan.path.string(), options.out.string());
}

PartSummary scout_part(const Plan& plan, const RunOptions& options, const Part& part) {
  const auto start = Clock::now();
  Stages stages(options);
  stages.begin("opening layers", 0);
  Area area = run::open_area(plan, nullptr, options.stop_signal);
  const run::MemoryUse memory = memory_of(plan, area, options);
  make_part_folder(options.out);
  const UseRoom room(std::make_shared<run::FolderRoom>(options.out));
  const run::PageKeeper keeper(memory.pages);
  const Ready ready(plan, area, options, stages);
  run::PartFile file(options.out, part, ready.loop.identity);
  PartSummary out;
  out.file = run::part_path(options.out, part);
  out.tiles = run::score_part(ready.loop, part, file);
  out.all_tiles = ready.loop.groups.size();
  ready.inputs.check();
  file.finish();
  for (int number = 1; number <= part.of; ++number) {
    if (!std::filesystem::exists(run::part_path(options.out, {number, part.of}))) {
      out.missing.push_back(number);
    }
  }
  out.warnings = area.warnings;
  out.seconds = seconds_since(start);
  return out;
}

RunSummary join(const Plan& plan, const RunOptions& options) {
  const auto start = Clock::now();
  const std::vector<Part> parts = complete_parts(plan, options);
  Stages stages(options);
  stages.begin("opening layers", 0);
  Area area = run::open_area(plan, nullptr, options.stop_signal);
  run::Printing printing(plan, area);
  const run::MemoryUse memory = memory_of(plan, area, options);
  OutputFolder folder(options.out);
  RunSummary summary = scout_into(folder, plan, area, printing, options, memory, stages,
                                  [&](const TileLoop& loop, Maps& maps, const OutputFolder&) {
                                    return take_parts(loop, parts, maps);
                                  });
  for (const std::filesystem::path& file : part_files(options.out)) {
    os::discard(file);
  }
  summary.seconds = seconds_since(start);
  return summary;
}

}  // namespace tidelot
