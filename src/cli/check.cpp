// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/commands.hpp"
#include "cli/print.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/run.hpp"

namespace tidelot::cli {
namespace {

constexpr std::size_t kWidth = 98;
constexpr std::string_view kToMend = "to mend: ";

/// Wrapped; what follows the first line stands two further in. Warnings and what is to mend are
/// not: a message is one line everywhere.
void print_line(const std::string& line, std::size_t indent = 0) {
  print(std::string(indent, ' ') + wrapped(line, kWidth, indent + 2, indent) + "\n");
}

std::vector<std::string> row_of(const LayerReport& r) {
  const bool ranged = r.low <= r.high && (r.low != 0.0 || r.high != 0.0);
  const std::string name =
      r.called.empty() || r.called == r.key ? "" : r.called.substr(r.called.find('"')) + ": ";
  const bool fault = r.verdict.starts_with(kToMend);  // told in full below
  return {r.key, r.unit.empty() ? "-" : r.unit, fmt::format("{:.0f} %", 100.0 * r.cover),
          ranged ? fixed(r.low, 2) + " to " + fixed(r.high, 2) : "-",
          name + (fault ? "to mend, see below" : r.verdict)};
}

/// What the stations of a property say month by month, and how well they tell of each other.
void print_months(const LayerReport& r) {
  if (r.months.empty()) {
    return;
  }
  print(
      fmt::format("\n{}: stations by month; each place left out in turn and told from the others "
                  "(predicted less measured, {})\n",
                  r.key, r.error_unit));
  std::vector<std::vector<std::string>> rows{
      {"month", "places", "readings", "left out", "RMSE", "bias"}};
  for (std::size_t m = 0; m < r.months.size(); ++m) {
    const StationMonth& month = r.months[m];
    const bool told = month.left_out > 0;
    rows.push_back({std::string(month_name(static_cast<int>(m))), std::to_string(month.places),
                    month.filled ? "filled" : std::to_string(month.readings),
                    std::to_string(month.left_out), told ? fixed(month.rmse, 3) : "-",
                    told ? fixed(month.bias, 3) : "-"});
  }
  print(table(rows));
}

void print_table(const std::vector<LayerReport>& layers) {
  std::vector<std::vector<std::string>> rows{{"key", "unit", "cover", "range", "verdict"}};
  for (const LayerReport& report : layers) {
    rows.push_back(row_of(report));
  }
  print(table(rows, kWidth));
}

/// What does not fit into the table: a line a layer.
void print_notes(const std::vector<LayerReport>& layers) {
  for (const LayerReport& report : layers) {
    std::string note;
    const auto add = [&](const std::string& word, const std::string& text) {
      if (!text.empty()) {
        note += (note.empty() ? "" : "; ") + word + text;
      }
    };
    add("", report.what);
    add("", report.crs);
    add("file ", report.file);
    add("", report.basis);
    add("", report.steps);
    add("times ", report.times);
    add("longest gap ", report.gap);
    add("", report.operation);
    if (!note.empty()) {
      print_line(fmt::format("{}: {}", report.key, note));
    }
  }
}

void print_defaults(const std::vector<ResolvedKey>& keys) {
  print("\nTaken by default:\n");
  for (const ResolvedKey& key : keys) {
    if (!key.given) {
      print_line(fmt::format("{} = {}  ({})", key.key, key.value, key.basis), 2);
    }
  }
}

/// What a run would hold.
void print_memory(std::size_t bytes) {
  if (bytes > 0) {
    print(
        fmt::format("\nMemory: a run with a worker a core holds up to {:.0f} MiB; --memory sets a "
                    "ceiling.\n",
                    std::ceil(static_cast<double>(bytes) * 0x1p-20)));
  }
}

/// The last line: ready, or what to mend first.
void print_verdict(const std::string& plan, const std::vector<Error>& problems) {
  if (problems.empty()) {
    print(fmt::format("ready: tidelot scout {}\n", plan));
    return;
  }
  for (std::size_t i = 0; i < problems.size(); ++i) {
    print(fmt::format("to mend, {} of {}: {}\n", i + 1, problems.size(), problems[i].what()));
  }
}

}  // namespace

int check(const std::string& path, bool json) {
  const Plan plan = read_plan(path);
  const CheckResult result = check_layers(plan);
  if (json) {
    print(check_json(plan, result));
  } else {
    const Grid& grid = result.grid;
    print(fmt::format("{}\nGrid: {} x {} cells of {} m, {}\nDepths from {}\n\n", plan.title,
                      grid.cols, grid.rows, shortest(grid.cell_m), result.grid_crs_name,
                      plan.depth.datum));
    print_table(result.layers);
    print("\n");
    print_notes(result.layers);
    std::for_each(result.layers.begin(), result.layers.end(), print_months);
    print_defaults(plan.keys);
    print_memory(result.memory);
    for (const std::string& warning : result.warnings) {
      print("warning: " + warning + "\n");
    }
    print_verdict(path, result.problems);
  }
  if (!result.problems.empty()) {
    flush();
    const std::size_t count = result.problems.size();
    throw json
        ? result.problems.front()
        : Error(result.problems.front().fault(),
                fmt::format("{}: {} to mend, listed above", path,
                            count == 1 ? "one thing is" : fmt::format("{} things are", count)));
  }
  return 0;
}

}  // namespace tidelot::cli
