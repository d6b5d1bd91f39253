// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cstdio>
#include <optional>

#include "cli/commands.hpp"
#include "cli/print.hpp"
#include "cli/progress.hpp"
#include "cli/signals.hpp"
#include "report/site/site_figures.hpp"
#include "report/words/rank_words.hpp"
#include "report/words/spread_words.hpp"
#include "run/resume/ranks.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/criteria/reason_codes.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/report/sheets_pdf.hpp"
#include "tidelot/run.hpp"

namespace tidelot::cli {
namespace {

void print_warnings(const std::vector<std::string>& warnings) {
  for (const std::string& warning : warnings) {
    std::fprintf(stderr, "warning: %s\n", warning.c_str());
  }
}

std::string share(std::size_t part, std::size_t whole) {
  const double percent = whole == 0 ? 0.0 : 100.0 * double(part) / double(whole);
  return part > 0 && percent < 0.5 ? "<1 %" : fmt::format("{:.0f} %", percent);
}

void print_water(const RunSummary& s) {
  const RunCounts& c = s.counts;
  print(fmt::format("Grid   {} x {} cells of {} m, {}\n", s.grid.cols, s.grid.rows,
                    shortest(s.grid.cell_m), s.grid_crs_name));
  print(fmt::format(
      "Water  {:.0f} ha ({} of the area): {:.0f} ha open and scored ({}), {:.0f} ha closed "
      "({})\n",
      c.water_ha, share(c.water, c.cells), c.open_ha, share(c.open, c.water), c.closed_ha,
      share(c.closed, c.water)));
  if (c.unknown > 0) {
    print(fmt::format("       {} cells not known well enough to score\n", c.unknown));
  }
  for (std::size_t bit = 0; bit < c.closed_by_bit.size(); ++bit) {
    if (c.closed_by_bit[bit] > 0) {
      print(fmt::format("       {:>4} of the water: {}\n", share(c.closed_by_bit[bit], c.water),
                        s.closed_bit_names[bit]));
    }
  }
}

/// What --resume found.
void print_kept(const RunSummary& s) {
  if (s.kept_cells) {
    print(*s.kept_cells > 0
              ? fmt::format("Went on with a stopped run: {} of the cells were finished.\n",
                            share(*s.kept_cells, s.grid.size()))
              : "No stopped run of this plan, inputs and program here: everything was computed.\n");
  }
}

/// The reasons that hold back open or unscored water most often, when there is nothing to rank.
void print_reasons(const RunSummary& s) {
  std::vector<std::pair<std::size_t, std::string>> reasons;
  for (std::size_t code = 0; code < s.counts.by_reason.size(); ++code) {
    const bool named = code < s.reason_names.size() && !s.reason_names[code].empty();
    if (s.counts.by_reason[code] > 0 && named && code != reason::kOutside &&
        code != reason::kLand) {
      reasons.emplace_back(s.counts.by_reason[code], s.reason_names[code]);
    }
  }
  std::stable_sort(reasons.begin(), reasons.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  print("What holds the water back:\n");
  for (const auto& [cells, name] : reasons) {
    print(fmt::format("  {:>9} cells  {}\n", cells, name));
  }
}

std::string dates(const Site& site) {
  return format_month_day(site.outplant) + " to " + format_month_day(site.last_haul);
}

/// P10 to P90, kg.
std::string nitrogen_range(const Site& site) {
  return site.spread
             ? fixed(site.spread->nitrogen_kg.p10, 2) + "-" + fixed(site.spread->nitrogen_kg.p90, 2)
             : "-";
}

void print_sites(const RunSummary& s) {
  std::vector<std::vector<std::string>> rows{{"rank", "lon", "lat", "ha", "suit.", "yield t",
                                              "N kg", "P10 to P90", "without", "depth m", "season",
                                              "limited by"}};
  for (const Site& site : s.sites.ranked) {
    const std::string rank = std::to_string(site.rank);
    rows.push_back({site.own > 0 ? rank + " " + site.name : rank, fixed(site.centre.lon, 6),
                    fixed(site.centre.lat, 6), fixed(site.area_ha, 2), fixed(site.suitability, 2),
                    fixed(site.yield_t, 2), fixed(site.nitrogen_kg, 2), nitrogen_range(site),
                    fixed(site.nitrogen_without_kg, 2),
                    fixed(site.depth_min_m, 1) + "-" + fixed(site.depth_max_m, 1), dates(site),
                    site.limited_by});
  }
  print("\n" + table(rows));
}

/// What the figures count.
void print_basis(const std::vector<Site>& sites, const Plan& plan) {
  const bool drawn = std::any_of(sites.begin(), sites.end(),
                                 [](const Site& site) { return site.draw_down.has_value(); });
  print(drawn
            ? "\nYield and nitrogen are best estimates with the crop's own draw-down of nitrogen; "
              "the column 'without' holds the nitrogen without it.\n"
            : "\nYield and nitrogen are best estimates without the crop's own draw-down of "
              "nitrogen.\n");
  print(page::spread_basis(plan) + ".\n");
}

/// The sum over the sites, where some take nitrogen from others.
void print_together(const std::vector<Site>& sites, ReportPlan::Units units) {
  const std::string together = page::together_sentence(sites, units);
  if (!together.empty()) {
    print(together + "\n");
  }
}

void print_sheets(const RunSummary& s) {
  print(fmt::format("{} sheets for print in sheets.html.\n", s.sheets));
  for (const SheetLeftOut& each : s.sheets_left_out) {
    print(fmt::format("  not written: {} ({})\n", each.title, each.why));
  }
}

/// Where the PDF stands, or what to do where no browser is installed.
std::string print_pdf(const std::filesystem::path& out, const std::string& folder,
                      const std::atomic<int>& stop) {
  const auto pdf = print_sheets_pdf(out / "sheets.html", folder, &stop);
  if (pdf) {
    return fmt::format("Sheets as PDF: {}", pdf->string());
  }
  return fmt::format(
      "No PDF of the sheets: none of {} is installed. Open sheets.html in any browser and print it "
      "at 100 %, without margins.",
      fmt::join(sheet_browsers(), ", "));
}

/// Tells what a run found, and writes the PDF of its sheets.
void print_run(const ScoutWords& words, const Plan& plan, const RunSummary& summary,
               const std::atomic<int>& stop) {
  print_warnings(summary.warnings);
  print_kept(summary);
  print_water(summary);
  if (summary.sites.ranked.empty()) {
    print("\nNo site found.\n");
    print_reasons(summary);
  } else {
    print_sites(summary);
  }
  if (const std::string order = page::rank_sentence(summary.sites.ranked); !order.empty()) {
    print("\n" + order + "\n");
  }
  for (const std::string& note : summary.sites.notes) {
    print(note + "\n");
  }
  print_basis(summary.sites.ranked, plan);
  print_together(summary.sites.ranked, plan.report.units);
  print_sheets(summary);
  print(fmt::format("Results in {} ({:.1f} s); open report.html there.\n", summary.out.string(),
                    summary.seconds));
  if (!words.sheets.empty()) {
    print(print_pdf(summary.out, words.sheets, stop) + "\n");
  }
}

/// What a part did, and how to go on.
void print_part(const Plan& plan, const RunOptions& options, const Part& part,
                const PartSummary& s) {
  print_warnings(s.warnings);
  print(fmt::format("Part {} of {}: {} of {} tiles in {} ({:.1f} s).\n", part.number, part.of,
                    s.tiles, s.all_tiles, s.file.string(), s.seconds));
  print(s.missing.empty()
            ? fmt::format("All parts stand. Go on with: {}\n", join_command(plan, options))
            : fmt::format("Missing: {}. When all stand, go on with: {}\n",
                          fmt::join(s.missing, ", "), join_command(plan, options)));
}

/// Calls run(options) with what the words say, and shows how far it is.
template <typename Run>
auto with_progress(const ScoutWords& words, RunOptions& options, const Run& run) {
  ProgressPrinter progress(words.quiet);
  options.progress = [&progress](const Progress& p) { progress(p); };
  return run();
}

RunOptions options_of(const ScoutWords& words, const Plan& plan) {
  RunOptions options;
  options.out = words.out.empty() ? default_out(plan.path) : std::filesystem::path(words.out);
  options.threads = words.threads;
  options.resume = words.resume;
  if (!words.memory.empty()) {
    options.memory = parse_memory(words.memory);
  }
  return options;
}

/// Processes of a job would all write the same.
void refuse_ranks(const run::Place& place, const char* what) {
  if (place.ranks > 1) {
    throw Error(Fault::plan,
                fmt::format("{} is for one process, and a launcher started {}; start it alone",
                            what, place.ranks));
  }
}

}  // namespace

Part parse_part(const std::string& text) {
  Part part;
  if (std::sscanf(text.c_str(), "%9d/%9d", &part.number, &part.of) != 2 ||
      fmt::format("{}/{}", part.number, part.of) != text || part.number < 1 ||
      part.number > part.of || part.of > kMostParts) {
    throw Error(Fault::plan, fmt::format("--part {}: is not K/N with K from 1 to N and N at most "
                                         "{}, such as 2/8",
                                         text, kMostParts));
  }
  return part;
}

std::size_t parse_memory(const std::string& text) {
  double size = 0.0;
  char unit = 0;
  char after = 0;
  const int read = std::sscanf(text.c_str(), "%15lf%c%c", &size, &unit, &after);
  const double bytes = size * (unit == 'G' ? 0x1p30 : unit == 'M' ? 0x1p20 : 0.0);
  if (read != 2 || !(bytes >= 0x1p20) || !(bytes <= 0x1p50)) {
    throw Error(Fault::plan,
                fmt::format("--memory {}: is not a size; write a number with M or G, such as 800M "
                            "or 1.5G",
                            text));
  }
  return static_cast<std::size_t>(bytes);
}

int scout(const ScoutWords& words) {
  const run::Place place = run::join_ranks();
  const std::optional<Part> part =
      words.part.empty() ? std::nullopt : std::optional(parse_part(words.part));
  if (part) {
    refuse_ranks(place, "--part");
  }
  const Plan plan = read_plan(words.plan);
  RunOptions options = options_of(words, plan);
  if (place.ranks > 1 && options.threads == 0) {
    options.threads = 1;
  }
  if (place.rank > 0) {  // a signal ends it: it has nothing to leave
    help_scout(plan, options);
    return 0;
  }
  if (!words.sheets.empty()) {
    check_sheets_folder(words.sheets);
  }
  const std::atomic<int>& stop = catch_signals();
  options.stop_signal = &stop;
  if (part) {
    print_part(plan, options, *part,
               with_progress(words, options, [&] { return scout_part(plan, options, *part); }));
    return 0;
  }
  print_run(words, plan,
            with_progress(words, options, [&] { return tidelot::scout(plan, options); }), stop);
  return 0;
}

int join(const ScoutWords& words) {
  refuse_ranks(run::join_ranks(), "join");
  const Plan plan = read_plan(words.plan);
  if (!words.sheets.empty()) {
    check_sheets_folder(words.sheets);
  }
  const std::atomic<int>& stop = catch_signals();
  RunOptions options = options_of(words, plan);
  options.stop_signal = &stop;
  print_run(words, plan,
            with_progress(words, options, [&] { return tidelot::join(plan, options); }), stop);
  return 0;
}

}  // namespace tidelot::cli
