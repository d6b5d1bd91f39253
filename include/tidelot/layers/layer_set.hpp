// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "tidelot/core/error.hpp"
#include "tidelot/core/geometry.hpp"
#include "tidelot/core/grid.hpp"
#include "tidelot/layers/field_checks.hpp"
#include "tidelot/layers/opener.hpp"
#include "tidelot/layers/wind_rose.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// A property over the year: twelve monthly values a cell, [month][cell], or 365 daily ones,
/// [day][cell].
struct MonthlyTile {
  std::array<std::vector<float>, kMonths> month;
  bool steady = false;                  ///< it does not change: only month[0] is filled
  std::vector<std::vector<float>> day;  ///< given day by day: month is empty then
  /// Of a raster: the least weight over the year of those of the four neighbours around a cell's
  /// centre that have data, 0..1. Empty for what does not come from a raster.
  std::vector<float> share;

  [[nodiscard]] bool empty() const { return month[0].empty() && day.empty(); }
};

/// Of a cell whose depth no source knows; others are counted from 0, in plan order.
inline constexpr std::uint8_t kNoSource = 255;

/// What the layers say about the cells of one tile, in canonical units, NaN where not known.
/// Arrays have tile.size() values, row by row.
struct TileLayers {
  std::vector<float> depth_low_water;        ///< m, positive down; NaN unknown; 0 on [land]
  std::vector<float> depth_share;            ///< MonthlyTile::share of the depth layer
  std::vector<std::uint8_t> depth_source{};  ///< see kNoSource; empty where there is one file
  std::vector<std::uint8_t> inside;          ///< 1 inside the outline (all, where there is none)
  MonthlyTile temperature;                   ///< degC
  MonthlyTile salinity;                      ///< practical salinity
  MonthlyTile attenuation;                   ///< Kd, 1/m
  MonthlyTile nitrogen;                      ///< DIN, umol/L
  MonthlyTile ammonium;                 ///< of it, umol/L; empty where the plan gives one share
  MonthlyTile current;                  ///< m/s
  MonthlyTile radiation;                ///< MJ m-2 d-1; empty where the sun comes from sunshine
  std::vector<float> current_axis_deg;  ///< along which it runs, 0..180 from true north; empty
                                        ///< where nothing says
  std::vector<std::vector<float>> own;  ///< the plan's own criteria layers, in their order
  std::vector<std::vector<float>> own_share;
};

/// One month of a property that is spread from stations.
struct StationMonth {
  int places = 0;       ///< with a reading in the month
  int readings = 0;     ///< days with a reading, over all places
  bool filled = false;  ///< no reading: between the months before and after
  /// Each place left out and told from the others: predicted less measured, canonical unit (of a
  /// Secchi depth or a turbidity: its own).
  int left_out = 0;
  double rmse = 0.0;
  double bias = 0.0;
};

/// A row of `tidelot check` and of run.json.
struct LayerReport {
  std::string key;        ///< "depth", "water.salinity", "closed[2]"
  std::string what;       ///< "GTiff raster, 640 x 710, 1 band" or "constant"
  std::string unit;       ///< as read, and what it became: "ft -> m"
  std::string crs;        ///< for people; "" where it has none
  std::string operation;  ///< the coordinate operation used
  double cover = 1.0;     ///< share of the area's cells with data, 0..1; of a water property: of
                          ///< those that are not land
  double low = 0.0, high = 0.0;  ///< range over the area, canonical unit
  std::string steps;             ///< what was done with steps of time and levels; "" where nothing
  std::string verdict;           ///< "good" or what to look at, one line
  std::string basis;             ///< "read from the file", "from the plan", ...
  double patched = 0.0;  ///< share of the same cells whose value rests on part of the neighbours
  std::string file;      ///< as the plan writes it; "" where the values stand in the plan
  std::string times;     ///< of a time axis: "1993-01-16 to 2019-12-16", else ""
  std::string gap;       ///< longest gap in time, "" where there is none to tell
  bool varies = false;   ///< from cell to cell: cover and range are found by sampling
  std::vector<StationMonth> months;  ///< twelve where stations were spread, else none
  /// One standard deviation in error_unit: the plan's, else that of leaving stations out; empty
  /// where neither is known.
  std::optional<double> error{};
  std::string error_basis{};
  std::string error_unit{};  ///< canonical; of a Secchi depth or a turbidity its own
  std::string called{};      ///< of one of several tables, for people: closed "eelgrass beds"
};

/// The rules of the plan with their shapes, in plan order.
struct ClosedLayer {
  ClosedPlan plan;
  std::vector<Feature> features;
  std::string crs_name;
};

/// The [[near]] tests of the plan with their shapes, in plan order.
struct NearLayer {
  NearPlan plan;
  std::vector<Feature> features;
};

/// The open layers of a plan on its grid.
class LayerSet {
 public:
  virtual ~LayerSet() = default;
  [[nodiscard]] virtual const Grid& grid() const = 0;
  [[nodiscard]] virtual const std::string& grid_crs_name() const = 0;
  /// Samples a tile. Throws Error(input) when pixels cannot be read.
  [[nodiscard]] virtual TileLayers sample(const Tile& tile) = 0;
  /// The depth alone, for what needs it before the rest (distance over water).
  [[nodiscard]] virtual std::vector<float> sample_depth(const Tile& tile) = 0;
  [[nodiscard]] virtual const std::vector<ClosedLayer>& closed() const = 0;
  [[nodiscard]] virtual const std::vector<NearLayer>& near() const = 0;
  [[nodiscard]] virtual const std::vector<LayerReport>& reports() const = 0;
  [[nodiscard]] virtual const std::vector<std::string>& warnings() const = 0;
  /// The wind rose of [waves]; none where the plan names no winds.
  [[nodiscard]] virtual const std::optional<WindRose>& winds() const = 0;
  /// What was measured from the boat, held against the layers as they were before; empty without
  /// [field].
  [[nodiscard]] virtual const FieldChecks& field_checks() const = 0;
  /// Files read, as the plan writes them and where they are, in plan order, each once.
  [[nodiscard]] virtual const std::vector<FileRef>& files() const = 0;
  /// An independent set on the same files, for another thread.
  [[nodiscard]] virtual std::unique_ptr<LayerSet> clone() const = 0;
};

/// Opens every layer of the plan, checks units, signs, plausible ranges, cover, and gives the set.
/// Throws Error(input) or Error(plan) (grid too large, unit unknown). Where problems is given, what
/// is wrong with single layers is added to it instead, each with a row of reports(); the set then
/// serves for its reports alone: what could not be read is NaN, or has no shapes.
[[nodiscard]] std::unique_ptr<LayerSet> open_layers(const Plan& plan, Opener& opener,
                                                    std::vector<Error>* problems = nullptr);

/// The grid of a plan: the bounding box in crs of the bounds' densified outline (33 points an
/// edge), grown outward to whole cells. crs "auto" is the UTM zone of the middle.
[[nodiscard]] Grid grid_of(const Plan& plan, Opener& opener);

/// Kd (1/m) from a Secchi depth (m), all coefficients from memory: 1.7/Z (Poole & Atkins 1929),
/// 1.44/Z (Holmes 1970, turbid coast), exp(0.253 - 1.029 ln Z) (Devlin et al. 2008, Est. Coast.
/// Shelf Sci. 79:429), 1.48 Z^-1.16 (Montes-Hugo & Alvarez-Borrego 2005, Cienc. Mar. 31(4), coastal
/// lagoon); automatic: Holmes below 5 m, Poole & Atkins from 5 m. NaN for a depth not above 0.
[[nodiscard]] double kd_from_secchi(double secchi_m,
                                    SecchiRelation relation = SecchiRelation::automatic);

/// Kd of PAR (1/m) from that at 490 nm: 0.0864 + 0.884 K - 0.00137/K (Morel et al. 2007, Remote
/// Sens. Environ. 111:69, clear ocean water; from memory). NaN outside of kKd490Low to kKd490High.
[[nodiscard]] double kd_from_kd490(double kd490);

/// Where that relation is believed: from pure water to the green water of its data (judgement).
inline constexpr double kKd490Low = 0.0166;
inline constexpr double kKd490High = 0.6;

}  // namespace tidelot
