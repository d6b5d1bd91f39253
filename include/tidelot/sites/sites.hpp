// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "tidelot/core/geometry.hpp"
#include "tidelot/core/grid.hpp"
#include "tidelot/criteria/wave_climate.hpp"
#include "tidelot/growth/limits.hpp"
#include "tidelot/layers/layer_set.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/season/window.hpp"
#include "tidelot/sites/closed_cells.hpp"
#include "tidelot/sites/draw_down.hpp"
#include "tidelot/sites/gear.hpp"
#include "tidelot/sites/geodesy.hpp"
#include "tidelot/sites/layout.hpp"
#include "tidelot/sites/spread.hpp"

namespace tidelot {

/// The scored maps that sites are placed on; grid.size() values each, row by row. NaN: land,
/// unknown.
struct ScoredMaps {
  std::span<const float> suitability;
  std::span<const float> yield_kg_per_m;
  std::span<const float> nitrogen_g_per_m;
  std::span<const float> depth_low_water;
  ClosedCells closed;                    ///< as in maps/closed.tif
  std::span<const std::uint8_t> reason;  ///< as in maps/reason.tif
  std::span<const float> outplant;       ///< day of year; NaN: no season
  std::span<const float> last_haul;      ///< day of year
  std::span<const float> harvests;
  std::span<const float> landing_m;              ///< over water; empty without a landing
  std::span<const std::uint8_t> depth_source{};  ///< as in maps/depth_source.tif; empty: one file
  std::span<const float> axis_deg{};  ///< of the current, from true north; empty where nothing says
  std::span<const float> confidence{};  ///< as in maps/confidence.tif; empty: no members
  const WaveMaps* waves = nullptr;      ///< null: no winds
  std::span<const float> coverage{};    ///< as in maps/coverage.tif; empty: not looked at
};

/// How near a rule comes to a site.
struct RuleDistance {
  int rule = 0;  ///< index in the plan
  double distance_m =
      0.0;  ///< from the site's edge to the shape's true edge, on the ellipsoid; 0 inside
  double bearing_deg = 0.0;  ///< from the site's centre to the nearest point of the shape, true
  LonLat nearest;            ///< that point
  double setback_m = 0.0;    ///< of that shape
  /// The site's edge comes within the setback of a shape that cautions: of a rule that only
  /// cautions, or whose status there says to ask, or is not known.
  bool cautioned = false;
};

/// What one [[near]] test finds at a site.
struct ShapesNear {
  int test = 0;            ///< index in the plan
  std::size_t within = 0;  ///< shapes within the distance of the site's edge, on the ellipsoid
  bool beyond = false;     ///< they are more than the test allows
  /// From the site's edge to the nearest shape, on the ellipsoid, 0 inside; none: no shape was
  /// read.
  std::optional<double> nearest_m;
  double bearing_deg = 0.0;  ///< from the site's centre to the nearest point of that shape, true
};

/// Where something lies as seen from a site.
struct Direction {
  double distance_m = 0.0;   ///< on the ellipsoid
  double bearing_deg = 0.0;  ///< true, from the site's centre
};

/// The nearest land, from the grid: cells whose depth at low water is 0 or less, or on [land].
struct Shore : Direction {       ///< distance from the site's edge to the cell's edge
  bool map_ends_nearer = false;  ///< beyond the edge of the map land may lie nearer
};

/// A site's positions as its sheet prints them, in the datum that [report] asks for, and what
/// follows from them.
struct Printed {
  struct Side {
    double length_m = 0.0;     ///< on the ellipsoid (Karney), from one corner to the next
    double bearing_deg = 0.0;  ///< true, as it sets out from the corner
  };
  std::string datum = "WGS 84";
  std::string operation;            ///< from WGS 84, with its accuracy; "": none is needed
  std::array<LonLat, 4> corners{};  ///< 6 decimals
  LonLat centre;
  std::array<Side, 4> sides{};      ///< from C1 on
  double area_ha = 0.0;             ///< on the ellipsoid, of these corners
  std::string utm_zone;             ///< "WGS 84 / UTM zone 26N"
  std::array<XY, 4> utm_corners{};  ///< of these corners; easting, northing, m, to the centimetre
  XY utm_centre;
};

/// The season at a site's centre by the reference, without the crop's own draw-down.
struct SiteSeason {
  struct Harvest {
    int day = 0;           ///< of the season, 0 the outplant day
    double g_per_m = 0.0;  ///< fresh weight cut at its end
  };
  SeasonWindow window;
  SeasonWindow water;                   ///< what the water alone would give
  std::vector<SeasonMonth> months;      ///< what held growth back, month by month
  ToleranceDays beyond;                 ///< days on which the water alone stopped growth
  std::vector<Harvest> harvests;        ///< above 0, in order
  std::vector<double> biomass_g_per_m;  ///< fresh weight at the end of each day, before the cut
  std::vector<double> tissue_n;         ///< g N/g DW, likewise
  double current_m_s = 0.0;             ///< mean over the season's days
  double dry_to_fresh = 0.0;            ///< g DW/g FW of what is hauled; 0: nothing is
};

/// What the layers say of the water in the cell at a site's centre: monthly means, January first,
/// NaN where not known.
struct SiteWater {
  using Year = std::array<double, kMonths>;
  Year temperature_c{};
  Year salinity{};         ///< practical salinity
  Year kd_per_m{};         ///< light attenuation
  Year nitrogen_umol_l{};  ///< dissolved inorganic
  Year current_m_s{};
};

/// Readings taken from a boat at a site.
struct FieldVisits {
  std::string last;          ///< "2026-06-14"
  int days = 0;              ///< on which something was read
  std::uint16_t months = 0;  ///< of them, bit 0 January
};

/// One site: a rectangle that the search found, or a box of the plan's own of any convex shape.
struct Site {
  int rank = 0;
  std::string name;                 ///< "S01", by rank; apart: "A01"; the plan's own box: "OWN1"
  int own = 0;                      ///< the plan's own box of that number; 0: found by the search
  std::vector<std::string> wrong;   ///< what forbids an own box, a phrase each; then it lies apart
  LonLat centre;                    ///< rounded to 6 decimals
  std::array<LonLat, 4> corners{};  ///< rounded to 6 decimals, clockwise from the north-most
  std::array<XY, 4> corners_xy{};   ///< in the grid's system, before rounding
  XY centre_xy;                     ///< likewise; of the area
  double angle_deg = 0.0;           ///< bearing of that rectangle's long side in the grid, 0..180
  std::optional<double> axis_deg;   ///< of the current over the covered cells, from true north
  double area_ha = 0.0;             ///< on the ellipsoid, of the corners, rounded
  double area_unrounded_ha = 0.0;   ///< of the corners before rounding
  Printed printed;
  SiteSize size;  ///< of the rectangle in which the layout lies; of an own box the largest inside
  Layout layout;
  Gear gear;
  double suitability = 0.0;     ///< mean over the site, each cell by the share that is covered
  double score = 0.0;           ///< sum of suitability * yield over the site, likewise
  double yield_kg_per_m = 0.0;  ///< mean over the site, likewise
  double nitrogen_g_per_m = 0.0;
  double yield_without_t = 0.0;  ///< line_m * yield, without the crop's own draw-down of nitrogen
  double nitrogen_without_kg = 0.0;
  double yield_t = 0.0;  ///< with it where draw_down is there, else as without
  double nitrogen_kg = 0.0;
  std::optional<DrawDown> draw_down;
  std::string no_draw_down = "not computed";      ///< why there is none
  std::optional<WithNeighbours> with_neighbours;  ///< of ranked sites with draw_down
  std::vector<Choice> choices;                  ///< grouped by what is changed; empty: not computed
  double depth_min_m = 0.0, depth_max_m = 0.0;  ///< at low water, over the covered cells
  double depth_mean_m = 0.0;
  std::optional<PlaceWaves> waves;        ///< at the covered cell with the highest; none: no winds
  DayOfYear outplant = 0, last_haul = 0;  ///< of the centre's cell
  int harvests = 0;
  double stocked_t = 0.0, stocked_nitrogen_kg = 0.0;  ///< put out on all lines
  std::optional<double> landing_km;                   ///< over water
  std::optional<Direction> landing;                   ///< straight, from the centre
  std::optional<Shore> shore;                         ///< none: the map shows no land
  std::vector<Direction> marks;       ///< [[report.marks]], from the centre, in plan order
  std::vector<RuleDistance> rules;    ///< every rule, the nearest first
  std::vector<ShapesNear> near;       ///< every [[near]] test, in plan order
  std::vector<std::string> cautions;  ///< short, one phrase each
  std::string depth_source;           ///< where its depths come from, with shares where mixed
  std::string limited_by;             ///< the most frequent reason over the covered cells
  std::size_t cells = 0;              ///< covered cells
  double unknown_share = 0.0;         ///< of the covered cells, where a water property is unknown
  std::vector<std::string> gaps;      ///< what is not known, or patched, over which share of it
  std::optional<FieldVisits> field;   ///< none: not field-checked
  std::optional<SiteWater> water;     ///< none: the layers were not asked
  std::optional<SiteSpread> spread;   ///< none: no members were asked for
  std::optional<SiteSeason> season;   ///< none: not computed, or not known at the centre
};

/// What placing found.
struct SitesResult {
  std::vector<Site> ranked;
  std::vector<Site> apart;  ///< own boxes that something forbids, then places with unknown depth or
                            ///< rule, or too much unknown
  std::size_t eligible_cells = 0;  ///< open, known, good enough, not too deep for the anchor legs
  std::size_t too_deep_for_size = 0;  ///< eligible but for the anchor legs
  std::size_t fitting_places = 0;  ///< positions times angles that fit; 0 where all sites asked for
                                   ///< were found, as then nobody counts them
  std::optional<SetSpread> set_spread;  ///< of all ranked sites at once; none: no members
  std::vector<std::string> notes;       ///< in plain words: why none or fewer were found
};

/// Sites found by the search and the plan's own boxes, the best score first; on equal scores own
/// boxes come first, then row, column and angle. An own box is measured as it lies. It is ranked
/// when it keeps what a site must keep, and the gap to the other own boxes; else it is listed apart
/// with what is wrong. What is found keeps the gap to the own boxes that are ranked. plan.sites
/// .count counts what is found. Error(plan) where an own box leaves the grid.
///
/// The search: places non-overlapping rectangles in eligible water: every cell centre times the
/// angles 0, 15,
/// ... 165 degrees is looked at, the leading ones are shifted and turned, and the best is taken by
/// the sum over the site of suitability * yield, each cell by the share that is covered, ties by
/// row, then column, then angle; the next keep gap_m to it, and so on (docs/design/placing.md). A
/// rectangle fits when every cell it touches is eligible, its edge keeps each closing rule's
/// setback to the true shape, and no closing [[near]] test finds too much. Where the current's axis
/// is known the one angle is its mean over the square of the site's length around the cell, to a
/// whole degree. Open cells with an unknown property may lie under a ranked site, up to a fifth of
/// it; they add nothing to its score. Places that would fit but for more of them, or for unknown
/// depth, are listed apart. A place whose score is not above 0 is none. Lengths of the plan are
/// true metres; the grid's scale at its middle turns them into the grid's.
[[nodiscard]] SitesResult place_sites(const Plan& plan, const Grid& grid, const ScoredMaps& maps,
                                      std::span<const ClosedLayer> closed,
                                      std::span<const NearLayer> near,
                                      std::span<const std::string> reason_names,
                                      Projector& grid_to_lonlat, const Geodesy& geodesy);

/// How near every rule with a shape comes to one place of the grid, the nearest first.
[[nodiscard]] std::vector<RuleDistance> rules_around(XY place, std::span<const ClosedLayer> closed,
                                                     Projector& grid_to_lonlat,
                                                     const Geodesy& geodesy);

/// What every [[near]] test finds at one place of the grid, in plan order.
[[nodiscard]] std::vector<ShapesNear> shapes_near(XY place, std::span<const NearLayer> near,
                                                  Projector& grid_to_lonlat,
                                                  const Geodesy& geodesy);

}  // namespace tidelot
