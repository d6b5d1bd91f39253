// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cstdio>

#include "cli/commands.hpp"
#include "cli/print.hpp"
#include "cli/progress.hpp"
#include "cli/signals.hpp"
#include "report/site_figures.hpp"
#include "report/spread_words.hpp"
#include "tidelot/core/text.hpp"
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

}  // namespace

int scout(const ScoutWords& words) {
  const Plan plan = read_plan(words.plan);
  if (!words.sheets.empty()) {
    check_sheets_folder(words.sheets);
  }
  const std::atomic<int>& stop = catch_signals();
  RunOptions options;
  options.out = words.out.empty() ? default_out(plan.path) : std::filesystem::path(words.out);
  options.threads = words.threads;
  options.stop_signal = &stop;
  options.resume = words.resume;
  RunSummary summary;
  {
    ProgressPrinter progress(words.quiet);
    options.progress = [&progress](const Progress& p) { progress(p); };
    summary = tidelot::scout(plan, options);
  }
  print_warnings(summary.warnings);
  print_kept(summary);
  print_water(summary);
  if (summary.sites.ranked.empty()) {
    print("\nNo site found.\n");
    print_reasons(summary);
  } else {
    print_sites(summary);
  }
  for (const std::string& note : summary.sites.notes) {
    print(note + "\n");
  }
  print_basis(summary.sites.ranked, plan);
  print_together(summary.sites.ranked, plan.report.units);
  print_sheets(summary);
  print(fmt::format("Results in {} ({:.1f} s); open report.html there.\n", options.out.string(),
                    summary.seconds));
  if (!words.sheets.empty()) {
    print(print_pdf(options.out, words.sheets, stop) + "\n");
  }
  return 0;
}

}  // namespace tidelot::cli
