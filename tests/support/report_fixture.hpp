// SPDX-License-Identifier: Apache-2.0
// An invented bay with its maps, rules and sites, for tests of the report.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "support/flat_earth.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason.hpp"
#include "tidelot/criteria/reason_codes.hpp"
#include "tidelot/report/report.hpp"
#include "tidelot/sites/positions.hpp"

namespace tidelot::test {

/// The smallest PNG there is, for every picture; remembers what it was asked for.
class PngTwin : public MapWriter {
 public:
  struct Picture {
    int width = 0;
    int height = 0;
    std::vector<std::uint8_t> rgba;
  };
  std::vector<Picture> pictures;
  inline static const std::string kStart{"\x89PNG\r\n\x1a\n", 8};

  void write_map(const std::filesystem::path&, const Grid&, const MapFile&) override {}
  void write_geopackage(const std::filesystem::path&, std::span<const Site>, const Plan&) override {
  }
  std::string png(int width, int height, std::span<const std::uint8_t> rgba) override {
    pictures.push_back({width, height, {rgba.begin(), rgba.end()}});
    return kStart;
  }
};

/// A bay that opens to the south, land round it, a channel and an eelgrass bed; five ranked sites
/// and one apart. Positions by the flat earth, 100 km to a degree, shifted to 30 W, 41 N.
class ReportFixture {
 public:
  explicit ReportFixture(int cols = 60, int rows = 70, double cell_m = 50.0)
      : grid_{500'000.0, 4'540'000.0, cell_m, cols, rows, "EPSG:32626"} {
    make_plan();
    make_maps();
    make_rules();
    count_cells();
    make_sites();
    make_layers();
  }

  [[nodiscard]] ReportData data() const {
    ReportData data;
    data.plan = &plan;
    data.grid = &grid_;
    data.grid_crs_name = "WGS 84 / UTM zone 26N (EPSG:32626)";
    data.maps = {suitability, yield,    nitrogen,  depth,    closed,
                 reasons,     outplant, last_haul, harvests, {}};
    data.ranges = ranges_of(data.maps);
    data.closed = rules;
    data.layers = layers;
    data.reason_names = reason_texts;
    data.warnings = warnings;
    data.sites = &sites;
    data.counts = counts;
    data.grid_corners = {
        to_lonlat({grid_.west, grid_.north}), to_lonlat({grid_.east(), grid_.north}),
        to_lonlat({grid_.east(), grid_.south()}), to_lonlat({grid_.west, grid_.south()})};
    data.grid_convergence_deg = 1.97;
    data.grid_scale = 0.9996;
    return data;
  }

  Plan plan;
  std::vector<float> suitability, yield, nitrogen, depth, outplant, last_haul, harvests;
  std::vector<std::uint32_t> closed;
  std::vector<std::uint8_t> reasons;
  std::vector<ClosedLayer> rules;
  std::vector<LayerReport> layers;
  std::vector<std::string> reason_texts;
  std::vector<std::string> warnings{"water.salinity is one number for every cell: a constant"};
  SitesResult sites;
  RunCounts counts;
  [[nodiscard]] const Grid& grid() const { return grid_; }

 private:
  static constexpr float kUnknown = std::numeric_limits<float>::quiet_NaN();
  static constexpr double kMiddleX = 503'000.0;

  static LonLat to_lonlat(XY p) {
    const auto printed = [](double v) { return std::round(v * 1e6) / 1e6; };
    return {printed(-30.05 + (p.x - 501'500.0) / kMetresPerDegree),
            printed(41.03 + (p.y - 4'538'250.0) / kMetresPerDegree)};
  }
  /// 0 at the west or north edge, 1 at the other.
  [[nodiscard]] double u(int col) const { return (col + 0.5) / grid_.cols; }
  [[nodiscard]] double v(int row) const { return (row + 0.5) / grid_.rows; }
  [[nodiscard]] XY at(double across, double down) const {
    return {grid_.west + across * grid_.cols * grid_.cell_m,
            grid_.north - down * grid_.rows * grid_.cell_m};
  }

  void make_plan() {
    plan.title = "Heron Bight, summer";
    plan.report.waterbody = "Heron Bight";
    plan.report.applicant = "Heron Bight Growers";
    plan.depth.datum = "MLLW";
    plan.depth.tidal_range_m = 2.1;
    plan.depth.lowest_tide_m = -0.4;
    plan.area.cell_m = grid_.cell_m;
    plan.crop.title = "Warm-temperate red alga on longlines";
    plan.crop.constants = {{"mu_max_per_day", 0.12, 0.08, 0.16, "1/d", "judgement"}};
    plan.criteria = {{"depth", Curve({{3, 0}, {5, 1}, {15, 1}, {30, 0}}), 1.0, {}, ""}};
    plan.keys = {{"depth.file", "\"depth.tif\"", true, ""},
                 {"farm.line_gap_m", "6", false, "common practice, no source"},
                 {"farm.scope", "3", false, "common practice, no source"}};
    const auto rule = [](std::string name, double setback, bool caution, std::string words) {
      ClosedPlan each;
      each.name = std::move(name);
      each.setback_m = setback;
      each.caution = caution;
      each.rule = std::move(words);
      return each;
    };
    plan.closed = {rule("eelgrass beds", 30.0, false, "harbour rules, section 4, March 2024"),
                   rule("boat channel", 60.0, false, ""),
                   rule("mooring field", 0.0, true, "harbormaster, by word of mouth")};
  }

  /// Depth of the invented bay, m; below 0 on land.
  [[nodiscard]] static double bay_depth(double x, double y) {
    const double shore = 0.40 - 0.13 * std::cos(7.0 * y) + 0.05 * std::sin(23.0 * y);
    const double side = shore - std::abs(x - 0.5 - 0.06 * std::sin(5.0 * y));
    const double head = y - 0.08 - 0.03 * std::sin(11.0 * x);
    const double island = std::hypot((x - 0.62) * 1.1, y - 0.57) - 0.06;
    return 42.0 * std::min({side, head, island * 1.6, 0.28}) + 1.5 * std::sin(17.0 * x + 9.0 * y);
  }

  void make_maps() {
    const std::size_t n = grid_.size();
    for (auto* map : {&suitability, &yield, &nitrogen, &depth, &outplant, &last_haul, &harvests}) {
      map->assign(n, kUnknown);
    }
    closed.assign(n, kClosedNotWater);
    reasons.assign(n, reason::kLand);
    for (int row = 0; row < grid_.rows; ++row) {
      for (int col = 0; col < grid_.cols; ++col) {
        make_cell(grid_.index(col, row), u(col), v(row));
      }
    }
  }

  void make_cell(std::size_t i, double x, double y) {
    const double d = bay_depth(x, y);
    if (d <= 0.0) {
      return;
    }
    if (x < 0.32 && y > 0.80) {
      closed[i] = kClosedUnknown;
      reasons[i] = reason::kDepthUnknown;
      return;
    }
    depth[i] = static_cast<float>(d);
    closed[i] = 0U;
    const double growth = std::clamp(1.0 - y * 0.75 + 0.12 * std::sin(9.0 * x), 0.0, 1.0);
    yield[i] = static_cast<float>(5.2 * growth);
    nitrogen[i] = static_cast<float>(14.5 * growth);
    outplant[i] = static_cast<float>(std::floor(132.0 + 14.0 * y));
    last_haul[i] = static_cast<float>(std::floor(298.0 - 9.0 * y));
    harvests[i] = 10.0F;
    score_cell(i, x, y, d, growth);
  }

  void score_cell(std::size_t i, double x, double y, double d, double growth) {
    const double fit = std::clamp((d - 3.0) / 2.0, 0.0, 1.0);
    suitability[i] = static_cast<float>(std::pow(growth, 0.67) * std::pow(fit, 0.33));
    reasons[i] = fit < growth              ? reason::kTooShallow
                 : y > 0.6                 ? reason::kGrowth[std::size_t(Limit::nitrogen)]
                 : std::sin(9.0 * x) < 0.2 ? reason::kGrowth[std::size_t(Limit::cold)]
                                           : reason::kCurrentWeak;
    close_cell(i, 0, d < 2.8, reason::kAground);
    close_cell(i, 8, std::hypot(x - 0.36, (y - 0.36) * 1.2) < 0.10, reason::kFirstRule);
    close_cell(i, 9, std::abs(x - channel(y)) < 0.045, reason::kFirstRule + 1);
  }

  void close_cell(std::size_t i, int bit, bool shut, std::uint8_t why) {
    if (shut) {
      closed[i] |= 1U << bit;
      suitability[i] = 0.0F;
      reasons[i] = why;
    }
  }

  static double channel(double y) { return 0.52 + 0.05 * std::sin(5.0 * y + 0.6); }

  void make_rules() {
    Path bed;
    for (int i = 0; i <= 24; ++i) {
      const double angle = i * std::numbers::pi / 12.0;
      bed.push_back(at(0.36 + 0.085 * std::cos(angle), 0.36 + 0.07 * std::sin(angle)));
    }
    Path way;
    for (int i = 0; i <= 20; ++i) {
      way.push_back(at(channel(0.1 + 0.045 * i) - 0.02, 0.1 + 0.045 * i));
    }
    for (int i = 20; i >= 0; --i) {
      way.push_back(at(channel(0.1 + 0.045 * i) + 0.02, 0.1 + 0.045 * i));
    }
    way.push_back(way.front());
    Path moorings{at(0.62, 0.30), at(0.70, 0.32), at(0.68, 0.38), at(0.61, 0.36), at(0.62, 0.30)};
    for (const Path& path : {bed, way, moorings}) {
      Feature feature;
      feature.shape.polygons.push_back({path, {}});
      rules.push_back({plan.closed[rules.size()], {feature}, "WGS 84 (EPSG:4326)"});
    }
  }

  void count_cells() {
    reason_texts = tidelot::reason_names(plan);
    counts.closed_by_bit.assign(32, 0);
    counts.by_reason.assign(256, 0);
    counts.cells = grid_.size();
    for (std::size_t i = 0; i < grid_.size(); ++i) {
      ++counts.by_reason[reasons[i]];
      counts.land += reasons[i] == reason::kLand ? 1 : 0;
      counts.unknown += closed[i] == kClosedUnknown ? 1 : 0;
      if (depth[i] > 0.0F) {
        ++counts.water;
        ++(closed[i] == 0U ? counts.open : counts.closed);
        for (int bit = 0; bit < 32; ++bit) {
          counts.closed_by_bit[static_cast<std::size_t>(bit)] += closed[i] >> bit & 1U;
        }
      }
    }
    const double ha = grid_.cell_m * grid_.cell_m / 1e4;
    counts.water_ha = static_cast<double>(counts.water) * ha;
    counts.closed_ha = static_cast<double>(counts.closed) * ha;
    counts.open_ha = static_cast<double>(counts.open) * ha;
  }

  void make_sites() {
    const std::vector<XY> places{at(0.66, 0.24), at(0.42, 0.22), at(0.30, 0.47), at(0.74, 0.45),
                                 at(0.40, 0.66)};
    for (std::size_t i = 0; i < places.size(); ++i) {
      sites.ranked.push_back(site_at(places[i], 30.0 * static_cast<double>(i), 'S', i));
    }
    Site apart = site_at(at(0.31, 0.795), 60.0, 'A', 0);
    apart.unknown_share = 0.31;
    apart.cautions = {"depth not known over 31 % of it"};
    sites.apart = {apart};
    sites.eligible_cells = counts.open / 2;
  }

  [[nodiscard]] Site site_at(XY centre, double angle, char list, std::size_t index) const {
    Site site;
    site.rank = static_cast<int>(index) + 1;
    site.name = list + ("0" + std::to_string(site.rank));
    site.size = {189.74, 63.25};
    site.angle_deg = angle;
    const double turn = angle * std::numbers::pi / 180.0;
    const XY along{std::sin(turn), std::cos(turn)};
    const std::array<std::array<double, 2>, 4> signs{{{1, -1}, {1, 1}, {-1, 1}, {-1, -1}}};
    for (std::size_t i = 0; i < 4; ++i) {
      const double l = signs[i][0] * site.size.length_m / 2;
      const double w = signs[i][1] * site.size.width_m / 2;
      site.corners_xy[i] = {centre.x + along.x * l + along.y * w,
                            centre.y + along.y * l - along.x * w};
      site.corners[i] = to_lonlat(site.corners_xy[i]);
    }
    site.centre_xy = centre;
    site.centre = to_lonlat(centre);
    site.area_ha = geodesy_.area_m2(site.corners) / 1e4;
    site.area_unrounded_ha = site.area_ha;
    print_position(site, {}, geodesy_);
    add_figures(site, index);
    return site;
  }

  void add_figures(Site& site, std::size_t index) const {
    const double less = 1.0 - 0.11 * static_cast<double>(index);
    site.suitability = 0.86 * less;
    site.yield_kg_per_m = 4.61 * less;
    site.nitrogen_g_per_m = 12.9 * less;
    site.layout = {6, 111.14, 666.84, 4440};
    site.yield_t = site.layout.line_m * site.yield_kg_per_m / 1000.0;
    site.nitrogen_kg = site.layout.line_m * site.nitrogen_g_per_m / 1000.0;
    site.yield_without_t = site.yield_t;
    site.nitrogen_without_kg = site.nitrogen_kg;
    site.depth_min_m = 5.2;
    site.depth_max_m = 6.0 + 0.4 * static_cast<double>(index);
    site.outplant = 134;
    site.last_haul = 296;
    site.harvests = 11;
    site.landing_km = 1.4 + 0.7 * static_cast<double>(index);
    site.limited_by = "growth held back by: nitrogen";
    site.rules = {{2, 85.0, 231.0, site.centre, 0.0},
                  {1, 240.0, 264.2, site.centre, 60.0},
                  {0, 812.5, 12.7, site.centre, 30.0}};
    site.cautions = {"mooring field within 85 m"};
  }

  void make_layers() {
    layers.clear();
    layers.push_back({.key = "depth",
                      .what = "GTiff raster, 640 x 710, 1 band",
                      .unit = "m",
                      .crs = "WGS 84 / UTM zone 26N",
                      .cover = 0.94,
                      .low = -3.0,
                      .high = 17.2,
                      .verdict = "good",
                      .basis = "read from the file"});
    layers.push_back({.key = "water.salinity",
                      .what = "constant",
                      .unit = "practical salinity",
                      .low = 29.0,
                      .high = 29.0,
                      .verdict = "one number for every cell",
                      .basis = "from the plan"});
    layers.push_back({.key = "closed[0]",
                      .what = "GPKG, 14 polygons",
                      .crs = "NAD83 (EPSG:4269)",
                      .operation = "NAD83 to WGS 84 (1), accuracy 4 m",
                      .verdict = "good",
                      .basis = "read from the file"});
  }

  Grid grid_;
  FlatGeodesy geodesy_;
};

}  // namespace tidelot::test
