// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "tidelot/core/grid.hpp"
#include "tidelot/layers/layer_set.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/report/map_ranges.hpp"
#include "tidelot/report/map_writer.hpp"
#include "tidelot/report/what_if.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot {

/// A number of the summary, shared by the summary on stdout, the report and run.json.
struct RunCounts {
  std::size_t cells = 0;  ///< of the grid, inside the outline
  std::size_t land = 0;
  std::size_t unknown = 0;  ///< water or depth not known well enough to score
  std::size_t water = 0;    ///< depth at low water above 0
  std::size_t closed = 0;   ///< water closed by a rule or aground
  std::size_t open = 0;     ///< water, open and scored
  double water_ha = 0.0, closed_ha = 0.0, open_ha = 0.0;  ///< true hectares (grid scale removed)
  std::vector<std::size_t> closed_by_bit;                 ///< water cells a bit closes, index = bit
  std::vector<std::size_t> closed_only_by_bit;  ///< of them, those that nothing else closes
  std::vector<std::size_t> by_reason;           ///< all cells, index = code of maps/reason.tif
};

/// All that a report prints.
struct ReportData {
  const Plan* plan = nullptr;
  const Grid* grid = nullptr;
  std::string grid_crs_name;
  ScoredMaps maps;
  MapRanges ranges;                     ///< of those maps
  std::span<const ClosedLayer> closed;  ///< shapes in the grid's system
  std::span<const NearLayer> near{};    ///< likewise
  std::span<const LayerReport> layers;
  std::span<const std::string> reason_names;
  std::span<const std::string> warnings;
  const SitesResult* sites = nullptr;
  RunCounts counts;
  const WhatIf* what_if = nullptr;       ///< null: not asked for
  std::array<LonLat, 4> grid_corners{};  ///< NW, NE, SE, SW of the grid
  double grid_convergence_deg = 0.0;     ///< true north from grid north at the middle, clockwise +
  double grid_scale = 1.0;               ///< grid length over ground length at the middle
  double grid_scale_error = 0.0;         ///< most that a length by it is off, as a share
};

/// Does task(0) to task(count - 1), in any order and on any thread; returns when all are done.
using EachOf = std::function<void(std::size_t count, const std::function<void(std::size_t)>& task)>;
/// One after the other, on this thread.
void in_turn(std::size_t count, const std::function<void(std::size_t)>& task);

/// A sheet for print that was not written, and why.
struct SheetLeftOut {
  std::string title;
  std::string why;
};

/// The sheets for print: one page, and what it lacks.
struct SheetSet {
  std::string html;
  int sheets = 0;
  std::vector<SheetLeftOut> left_out;
};

/// The twelve cautions, compiled in; printed at the foot of every sheet.
[[nodiscard]] const std::vector<std::string>& cautions();

/// UTF-8, no BOM, CRLF-free; columns as in docs/user/outputs.md. Text cells that a spreadsheet
/// could take for a formula get a leading apostrophe.
[[nodiscard]] std::string sites_csv(std::span<const Site> sites, const Plan& plan);
/// Nitrogen and money, a row a site and one for all of them at once; columns as in
/// docs/user/outputs.md.
[[nodiscard]] std::string load_csv(std::span<const Site> sites, const Plan& plan,
                                   const std::optional<SetSpread>& spread = std::nullopt);
/// RFC 7946, WGS 84, 6 decimals, right-hand rule.
[[nodiscard]] std::string sites_geojson(std::span<const Site> sites, const Plan& plan);
/// GPX 1.1: waypoints of corners and centres, one closed route a site, no elevation, no extensions.
[[nodiscard]] std::string sites_gpx(std::span<const Site> sites, const Plan& plan);
/// One self-contained page: no request leaves it. The same bytes whatever `each` does; its tasks
/// call pictures.png, from several threads where `each` has them.
[[nodiscard]] std::string report_html(const ReportData& data, MapWriter& pictures,
                                      const EachOf& each = in_turn);
/// The sheets for print, each a page of paper with vector drawings to scale; no request leaves it.
[[nodiscard]] SheetSet sheets_html(const ReportData& data);
/// What to measure where, to take on the boat.
[[nodiscard]] std::string field_sheet_html(const ReportData& data);
/// A table to fill in, a property a row at every station of the field sheet; what [field] readings
/// takes back.
[[nodiscard]] std::string field_readings_csv(const SitesResult& sites);

/// & < > " ' escaped for HTML text and attributes.
[[nodiscard]] std::string html_escape(std::string_view text);
/// JSON for a script element: every <, > and & as \u00xx.
[[nodiscard]] std::string script_json(std::string_view json);

}  // namespace tidelot
