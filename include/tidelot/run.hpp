// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <atomic>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "tidelot/core/error.hpp"
#include "tidelot/core/grid.hpp"
#include "tidelot/criteria/reason.hpp"
#include "tidelot/growth/model.hpp"
#include "tidelot/layers/layer_set.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/report/report.hpp"
#include "tidelot/season/window.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot {

/// How far a run is.
struct Progress {
  std::string stage;     ///< "growing", "placing sites", ...
  std::size_t done = 0;  ///< of total, in cells
  std::size_t total = 0;
  double seconds = 0.0;  ///< since the stage began
};

struct RunOptions {
  std::filesystem::path out;
  int threads = 0;  ///< 0: one a core
  std::function<void(const Progress&)>
      progress;  ///< called from the calling thread's workers, in turn
  const std::atomic<int>* stop_signal = nullptr;  ///< not 0: stop, Interrupted is thrown
  bool resume = false;  ///< go on with what a stopped run left in `out`, where it is the same run
  std::optional<std::size_t> memory{};  ///< most that it may hold, bytes; none: no ceiling
};

/// One of `of` parts of a run, which processes of their own compute; 1..of.
struct Part {
  int number = 1;
  int of = 1;
};
inline constexpr int kMostParts = 9999;

/// A run that a signal stopped when part of it was finished and is kept; what() says where.
class StoppedRun : public Interrupted {
 public:
  StoppedRun(int signal, std::string kept) : Interrupted(signal), kept_(std::move(kept)) {}
  [[nodiscard]] const char* what() const noexcept override { return kept_.c_str(); }

 private:
  std::string kept_;
};

/// What a run says at its end.
struct RunSummary {
  std::filesystem::path out;
  Grid grid;
  std::string grid_crs_name;
  RunCounts counts;
  SitesResult sites;
  std::optional<WhatIf> what_if;  ///< none: not asked for
  std::vector<std::string> reason_names;
  std::vector<std::string> closed_bit_names;
  std::vector<std::string> warnings;
  int sheets = 0;  ///< in sheets.html
  std::vector<SheetLeftOut> sheets_left_out;
  std::optional<std::size_t> kept_cells;  ///< of a stopped run; none: not asked to go on with one
  double seconds = 0.0;
};

/// Where a plan's results go unless told otherwise: the plan's name + "-out" beside it.
[[nodiscard]] std::filesystem::path default_out(const std::filesystem::path& plan);

/// The main job: layers -> season -> growth -> criteria -> sites -> report. Writes options.out.
/// Error(plan) before it writes anything where it would not keep to options.memory.
/// Where the process is the first of an MPI job (run/ranks.hpp), the others help with the tiles.
[[nodiscard]] RunSummary scout(const Plan& plan, const RunOptions& options);
/// What the other processes of an MPI job do: some of the tiles; they write nothing.
void help_scout(const Plan& plan, const RunOptions& options);

/// What a part says at its end.
struct PartSummary {
  std::filesystem::path file;
  std::size_t tiles = 0;      ///< that it holds
  std::size_t all_tiles = 0;  ///< of the run
  std::vector<int> missing;   ///< numbers of the parts that do not stand yet, as of now
  std::vector<std::string> warnings;
  double seconds = 0.0;
};
/// Grows and scores the tiles of one part and keeps them in a file of options.out, beside an
/// earlier result. Several may run at once.
[[nodiscard]] PartSummary scout_part(const Plan& plan, const RunOptions& options, const Part& part);
/// scout() with the tiles of the parts in options.out, which go away when the result stands.
/// Error(input) when one is missing, not whole or of another run: it names the command that makes
/// it.
[[nodiscard]] RunSummary join(const Plan& plan, const RunOptions& options);
/// The words that compute a part, and those that join all.
[[nodiscard]] std::string part_command(const Plan& plan, const RunOptions& options,
                                       const Part& part);
[[nodiscard]] std::string join_command(const Plan& plan, const RunOptions& options);

/// Opens every layer and runs nothing. What is wrong with a layer is gathered, so that a user can
/// mend all of it at once; what keeps the grid from being made is thrown.
struct CheckResult {
  Grid grid;
  std::string grid_crs_name;
  std::vector<LayerReport> layers;
  std::vector<std::string> warnings;
  FieldChecks field;       ///< empty without [field]
  std::size_t memory = 0;  ///< most that a run with a worker a core is predicted to hold, bytes
  std::vector<Error> problems;  ///< empty: ready to run
};
[[nodiscard]] CheckResult check_layers(const Plan& plan);

/// The same for machines: a JSON object with title, ready, grid, layers, defaults, warnings and
/// to_mend.
[[nodiscard]] std::string check_json(const Plan& plan, const CheckResult& result);

/// One place, day by day.
struct Explanation {
  LonLat at;
  Cell cell;
  LonLat cell_centre;
  double depth_low_water = 0.0;
  std::string depth_source;  ///< the name of the file of depths that counts here; "" where unknown
  std::optional<double> current_axis_deg;  ///< 0..180 from true north
  CellEvidence evidence;
  CellScore score;
  std::string reason;                    ///< the first where more than one closes it
  std::vector<std::string> closed_by;    ///< all that close it; empty: open, or not known
  std::vector<double> criterion_scores;  ///< in plan order; NaN: not known
  bool grown = false;  ///< false: land, or something the crop needs is not known; no season below
  SeasonWindow season;
  SeasonWindow water_season;
  SeasonResult growth;
  std::vector<RuleDistance> rules;  ///< from the cell's centre; distance 0 inside
  std::vector<ShapesNear> near;     ///< likewise
  std::vector<std::string> warnings;
  std::optional<PlaceWaves> waves;  ///< where the plan names winds
};
/// Throws Error(plan) when the place lies outside the area.
[[nodiscard]] Explanation explain(const Plan& plan, LonLat at);

}  // namespace tidelot
