// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/print.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/run.hpp"

namespace tidelot::cli {
namespace {

std::vector<std::string> row_of(const LayerReport& r) {
  const bool ranged = r.low <= r.high && (r.low != 0.0 || r.high != 0.0);
  return {r.key,
          r.what,
          r.unit.empty() ? "-" : r.unit,
          r.crs.empty() ? "-" : r.crs,
          fmt::format("{:.0f} %", 100.0 * r.cover),
          ranged ? fixed(r.low, 2) + " to " + fixed(r.high, 2) : "-",
          r.verdict};
}

}  // namespace

int check(const std::string& path) {
  const Plan plan = read_plan(path);
  const CheckResult result = check_layers(plan);
  const Grid& grid = result.grid;
  print(fmt::format("{}\nGrid: {} x {} cells of {} m, {}\n\n", plan.title, grid.cols, grid.rows,
                    shortest(grid.cell_m), result.grid_crs_name));
  std::vector<std::vector<std::string>> rows{
      {"key", "what", "unit", "reference system", "cover", "range", "verdict"}};
  for (const LayerReport& report : result.layers) {
    rows.push_back(row_of(report));
  }
  print(table(rows));
  for (const LayerReport& report : result.layers) {
    if (!report.operation.empty()) {
      print(fmt::format("\n{}: {}", report.key, report.operation));
    }
  }
  print("\n");
  print("\nTaken by default:\n");
  for (const ResolvedKey& key : plan.keys) {
    if (!key.given) {
      print(fmt::format("  {} = {}  ({})\n", key.key, key.value, key.basis));
    }
  }
  for (const std::string& warning : result.warnings) {
    print("warning: " + warning + "\n");
  }
  return 0;
}

}  // namespace tidelot::cli
