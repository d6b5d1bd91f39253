// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "tidelot/core/calendar.hpp"
#include "tidelot/core/crop.hpp"
#include "tidelot/core/curve.hpp"
#include "tidelot/core/grid.hpp"
#include "tidelot/core/units.hpp"
#include "tidelot/plan/labels.hpp"

namespace tidelot {

/// A file named in the plan, with what picks one thing out of it.
struct FileRef {
  std::filesystem::path path;      ///< absolute, or with {month} still in it
  std::string written;             ///< as the plan writes it; this is what is printed
  std::string variable;            ///< NetCDF variable, or ""
  std::string layer;               ///< vector layer, or ""
  std::string field{};             ///< the column that holds the values, or ""
  std::string crs{};               ///< the system where the file states none, or ""
  std::filesystem::path within{};  ///< the folder that it may not leave, by a link either; "": any
  bool remote = false;             ///< path is an address, http:// or https://, and allowed
};

/// [run] allow: what the careful reading of a plan refuses.
struct Allowances {
  bool ballpark = false;  ///< coordinates are taken over between datums as they are, where nothing
                          ///< better is known
  bool outside = false;   ///< files may lie outside of the plan's folder
  bool network = false;   ///< rasters may be read from a web server
};

/// When neighbours of a cell are missing at the edge of a layer: how much of the weight the others
/// must have for the cell to get a value.
enum class EdgeRule {
  half,  ///< half of it or more
  full,  ///< all of it: every neighbour that counts is there
  any,   ///< whatever there is
};

struct AreaPlan {
  double west = 0.0, south = 0.0, east = 0.0, north = 0.0;  ///< degrees, WGS 84; bounds
  bool has_bounds = false;  ///< false: the box of the outline is used
  std::optional<FileRef> outline;
  double cell_m = 0.0;
  std::string crs = "auto";
  EdgeRule edge = EdgeRule::half;
};

/// [land]: where there is land whatever the depth layer says.
struct LandPlan {
  FileRef file;
  std::string where;
  bool shapes_are_water = false;  ///< inside = "water": land is what lies outside of the shapes
};

enum class Positive { down, up };

/// One file of depths.
struct DepthSource {
  std::string key = "depth";  ///< "depth.sources[1]" where there are several
  std::string name;           ///< for people; "": the file's
  FileRef file;
  Positive positive = Positive::down;
  std::string unit;                               ///< "" : as the file says, else m
  std::string datum;                              ///< the zero of the file; any name
  std::variant<double, FileRef> low_water = 0.0;  ///< m above the file's zero
  std::optional<double> longest_edge_m;           ///< of triangles between points
  double feather_m = 0.0;                         ///< at its edge, into the next; 0: cut

  [[nodiscard]] const std::string& title() const { return name.empty() ? file.written : name; }
};

/// [depth]: the one file, or what its sources have in common.
struct DepthPlan : DepthSource {
  std::vector<DepthSource> several;  ///< [[depth.sources]], the most trusted first; or empty
  double tidal_range_m = 0.0;
  double lowest_tide_m = 0.0;
  double error_m = 0.0;  ///< one standard deviation

  /// Every file of depths, the most trusted first; never empty.
  [[nodiscard]] std::span<const DepthSource> sources() const {
    return several.empty() ? std::span<const DepthSource>(static_cast<const DepthSource*>(this), 1)
                           : std::span<const DepthSource>(several);
  }
};

using Monthly = std::array<double, kMonths>;

/// A table of readings at stations, and how they are spread over the water.
struct StationsRef {
  FileRef file;
  std::optional<FileRef> station_file;  ///< where the stations lie, when the table does not say
  std::map<std::string, std::string> columns;  ///< what a column holds -> its header in the table
  std::string characteristic;                  ///< "": the table holds one only
  double depth_max_m = 2.0;                    ///< readings from deeper are left out
  double power = 2.0;  ///< weight of a place = (distance^2 + nugget^2)^(-power/2)
  double nugget_m = 50.0;
  double snap_m = 250.0;  ///< a station on land belongs to water at most this far off
};

/// Where the values of a water property come from.
using PropertySource = std::variant<double, Monthly, FileRef, StationsRef>;

/// One of the five [water.*] tables. Values are still in `unit`.
struct WaterPlan {
  Quantity quantity = Quantity::temperature;
  std::string key;  ///< "water.temperature"
  PropertySource source = 0.0;
  std::string unit;  ///< "" : as the file says, else the canonical one
  std::optional<double> error;
  /// What becomes of a file's steps of time. automatic: day by day where it has steps shorter than
  /// a month of one year or a mean year, else twelve monthly means.
  enum class Steps { automatic, monthly, daily } steps = Steps::automatic;
  std::string northward;  ///< current: the NetCDF variable of the northward part, that of the file
                          ///< being the eastward one; "": the file holds speeds
  /// Current: where it runs to, degrees from true north, or a raster of it; only the axis counts.
  std::optional<std::variant<double, FileRef>> direction = std::nullopt;

  [[nodiscard]] bool may_have_axis() const { return direction.has_value() || !northward.empty(); }
};

/// How Secchi depth becomes attenuation: docs/science/light.md.
enum class SecchiRelation {
  automatic,
  poole_atkins_1929,
  holmes_1970,
  devlin_2008,
  montes_hugo_2005
};

/// How [water.light] becomes the attenuation of PAR.
struct LightPlan {
  SecchiRelation secchi = SecchiRelation::automatic;
  double turbidity_intercept = 0.0;  ///< 1/m
  double turbidity_slope = 0.0;      ///< 1/m per NTU
  bool kd490 = false;                ///< the attenuation is that at 490 nm
};

struct SeasonPlan {
  std::optional<DayOfYear> gear_in;
  std::optional<DayOfYear> gear_out;
  enum class Daily { mean, linear } daily = Daily::mean;
};

/// Share of possible sunshine n/N, or a layer of global radiation.
struct SunPlan {
  std::variant<double, Monthly, FileRef> source = 0.5;
  std::string unit;  ///< of the radiation layer
};

/// On which sheet for print the shapes of a rule are drawn.
enum class MapSheet {
  automatic,  ///< by the words in the rule's name
  uses,
  habitat,
};

/// One [[closed]] rule, in plan order.
struct ClosedPlan {
  std::string name;
  FileRef file;
  std::string where;
  double setback_m = 0.0;
  bool caution = false;            ///< effect = "caution": kept open, flagged
  std::string rule;                ///< "" is printed as "no rule given"
  std::string setback_field = {};  ///< column with a shape's own setback, m; "" none
  std::string status_field = {};   ///< column that says open, closed or not known; "" none
  std::uint16_t months = 0;        ///< bit 0 January; 0: all year
  bool food_only = false;          ///< only_for = "food"
  bool applies = true;             ///< false: for food, and the crop is none
  MapSheet sheet = MapSheet::automatic;

  /// Does it close water (at least in some months)?
  [[nodiscard]] bool closes() const { return applies && !caution; }
  [[nodiscard]] bool flags() const { return applies && caution; }
};

/// One [[near]] test, in plan order: how many shapes may lie within a distance of a site. It closes
/// no cells.
struct NearPlan {
  std::string name;
  FileRef file;
  std::string where;
  double distance_m = 0.0;
  int count = 0;        ///< so many may lie within the distance
  bool closes = false;  ///< effect = "close": no site where there are more; else a caution
  std::string rule;     ///< "" is printed as "no rule given"
  MapSheet sheet = MapSheet::automatic;
};

struct FarmPlan {
  bool fixed_line = false;    ///< line = "fixed": hung from the bed; else it floats with the tide
  double line_depth_m = 1.0;  ///< from the water surface; of a fixed line from low water
  double line_gap_m = 6.0;
  double margin_m = 15.0;
  double scope = 3.0;
  double sag_m = 0.3;
  double hang_m = 0.5;
  double clearance_m = 1.0;
  double stocking_g_per_m = 100.0;
  double bundle_m = 0.15;
  int harvest_days = 14;
  std::optional<DayOfYear> outplant;   ///< empty: auto
  std::optional<DayOfYear> last_haul;  ///< empty: auto
  bool food = false;                   ///< use = "food"
  // What the gear bears; beyond it water is closed. Empty: no such limit.
  std::optional<double> max_depth_m;      ///< at low water
  std::optional<double> max_wave_m;       ///< significant height, once in fifty years
  std::optional<double> max_current_m_s;  ///< mean over the season
};

/// The lowest level that gear comes to, m from low water: of floating gear that of the lowest tide,
/// of a fixed line 0, as it does not sink with the tide.
[[nodiscard]] double gear_sinks_to_m(const FarmPlan& farm, double lowest_tide_m);

struct CriterionPlan {
  std::string name;  ///< "growth", "depth", "current", "access", or the user's own
  Curve curve;
  double weight = 1.0;
  std::optional<FileRef> file;  ///< the user's own layer
  std::string unit;             ///< of the user's own layer, printed only
};

/// How the scores of the criteria become one.
enum class Combine {
  geometric,  ///< their weighted geometric mean
  minimum,    ///< the lowest of those with a weight above 0
  both,       ///< the mean is the suitability, the minimum stands beside it
};

struct SitesPlan {
  int count = 10;
  bool line = false;  ///< shape = "line": one longline
  double area_ha = 1.2;
  double length_to_width = 3.0;
  bool along_current = true;  ///< along = "current"; else the best of all angles everywhere
  double gap_m = 100.0;
  double min_suitability = 0.3;
  std::optional<LonLat> landing;
  double draft_m = 0.0;  ///< of the boat: the way to the landing keeps this depth at low water
  /// own_corners: boxes of the user's own, each four corners round a convex shape.
  std::vector<std::array<LonLat, 4>> own_boxes;
};

/// [uncertainty]: members with other water and another crop, each as likely.
struct UncertaintyPlan {
  int draws = 0;  ///< of members; 0: the best estimate only
  std::uint64_t seed = 1;
  /// Over which the errors of layers are alike, m; empty: everywhere.
  std::optional<double> length_m;
};

/// How wind, fetch and depth make waves.
enum class WaveForm {
  young_verhagen,    ///< Young & Verhagen 1996
  shore_protection,  ///< Shore Protection Manual 1984, shallow water
};

/// [waves]
struct WavesPlan {
  FileRef winds;  ///< a table: a wind rose
  double winds_height_m = 10.0;
  WaveForm form = WaveForm::young_verhagen;
  int directions = 16;
  double open_km = 50.0;         ///< fetch beyond the edge of the map where that is water
  double working_limit_m = 0.5;  ///< significant height above which nobody works the lines
};

/// [[report.marks]]: a charted mark that the sites' bearings and distances are told from.
struct MarkPlan {
  std::string name;
  LonLat at;  ///< WGS 84
};

struct ReportPlan {
  std::string applicant;
  std::string waterbody;
  double marker_gap_m = 90.0;
  enum class Units { metric, us, both } units = Units::both;
  bool nad83 = false;           ///< datum = "NAD 83": of the positions on the site sheets
  bool what_if = true;          ///< the table of moved distances and limits
  std::vector<MarkPlan> marks;  ///< at most kMostMarks
  std::shared_ptr<const Labels> labels = Labels::built_in();  ///< never null
  std::string date;     ///< of the sheets, "2026-06-14"; "": written in by hand
  bool a4 = false;      ///< paper of the sheets; else US Letter
  int sheet_sites = 1;  ///< so many of the best sites have sheets of their own
};
inline constexpr std::size_t kMostMarks = 5;

/// [load]: the bay's nitrogen load, which the harvests are a share of.
struct LoadPlan {
  double nitrogen_kg_per_year = 0.0;
  std::string kind;     ///< "": not stated
  std::string segment;  ///< of the bay; "": not stated
  std::string period;   ///< what the load was counted over; "": not stated
  std::optional<int> year;
  std::optional<double> goal_percent;  ///< of the load, to be taken out
  std::optional<double> residence_months;
};

/// [money], in the user's own currency.
struct MoneyPlan {
  double per_line_m = 0.0;  ///< a year and metre of longline
  double per_year = 0.0;    ///< whatever the metres, of one site
};

/// [field]: what was measured from the boat, and what becomes of the layers for it.
struct FieldPlan {
  FileRef readings;
  enum class Apply {
    confidence,  ///< values stay; the error follows
    bias,        ///< the mean residual is added everywhere
    replace,     ///< the residuals are spread around the readings
  } apply = Apply::confidence;
  double range_m = 500.0;  ///< replace: through the water, where they have faded to nothing
};

/// One key of the resolved plan, for run.json and the report's list of assumptions.
struct ResolvedKey {
  std::string key;    ///< dotted: "farm.line_gap_m", "closed[0].setback_m"
  std::string value;  ///< as JSON text
  bool given = true;  ///< false: the default was taken
  std::string basis;  ///< of a default: its source, or "common practice, no source"
};

/// How the GeoTIFFs are packed. Programs older than 2018 may not know zstd.
enum class MapCodec { zstd, deflate };

/// A plan, checked: every value is finite and in its range, every path is absolute.
struct Plan {
  std::filesystem::path path;
  std::string title;
  AreaPlan area;
  DepthPlan depth;
  std::optional<LandPlan> land;
  WaterPlan temperature, salinity, light, nitrogen, current;
  LightPlan light_relation;
  double nh4_share = 0.4;
  /// Given apart: then both are, nitrogen has no source of its own and nh4_share says nothing.
  std::optional<WaterPlan> nitrate, ammonium;
  SeasonPlan season;
  SunPlan sun;
  std::vector<ClosedPlan> closed;
  std::vector<NearPlan> near;
  Crop crop;
  BoundaryLayer boundary_layer = BoundaryLayer::current;
  FarmPlan farm;
  std::optional<WavesPlan> waves;
  std::vector<CriterionPlan> criteria;
  Combine combine = Combine::geometric;
  SitesPlan sites;
  UncertaintyPlan uncertainty;
  std::optional<LoadPlan> load;
  ReportPlan report;
  std::optional<MoneyPlan> money;
  std::optional<FieldPlan> field;
  Allowances allow;
  MapCodec codec = MapCodec::zstd;    ///< [run] codec
  std::vector<ResolvedKey> keys;      ///< every key in force, in the order of design.md
  std::vector<std::string> warnings;  ///< for the user, one line each
};

/// Is the datum's name a low-water one (MLLW, MLW, LAT, chart datum), where low_water_m may be left
/// out?
[[nodiscard]] bool is_low_water_datum(std::string_view datum);

/// What messages call one of several tables: closed "eelgrass beds", or closed[0] where it has no
/// name.
[[nodiscard]] std::string table_called(std::string_view table, std::size_t index,
                                       std::string_view name);

/// Reads and checks a plan. Opens no layer; reads the crop profile when it is a file.
/// Throws Error(plan): "plan.toml:12:3: ..." with file:line:column, the key and what to do.
[[nodiscard]] Plan read_plan(const std::filesystem::path& path);

/// The same from text; relative paths are taken relative to path's folder.
[[nodiscard]] Plan parse_plan(std::string_view text, const std::filesystem::path& path);

/// A commented plan to begin from (`tidelot start`). Parses; the files it names do not exist yet.
[[nodiscard]] std::string starter_plan();

}  // namespace tidelot
