// SPDX-License-Identifier: Apache-2.0
#include "scatter_field.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>
#include <utility>
#include <vector>

#include "area_window.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

constexpr double kMedians = 5.0;  // longest edge over the median one; judgement
constexpr int kTileSide = 128;
constexpr double kNan = std::numeric_limits<double>::quiet_NaN();

[[noreturn]] void refuse(const RasterWish& wish, const std::string& what) {
  throw Error(Fault::input, fmt::format("{}: {}: {}", wish.key, wish.file.written, what));
}

double length(XY a, XY b) { return std::hypot(b.x - a.x, b.y - a.y); }

/// The three edges of each triangle; inner edges stand twice, which moves no median.
std::vector<double> edges_of(const Scatter& scatter) {
  std::vector<double> lengths;
  lengths.reserve(3 * scatter.triangles.size());
  for (const auto& t : scatter.triangles) {
    for (std::size_t i = 0; i < 3; ++i) {
      lengths.push_back(length(scatter.places[t[i]], scatter.places[t[(i + 1) % 3]]));
    }
  }
  return lengths;
}

/// Three figures: a bound that is judged has no more.
double rounded(double metres) {
  const double unit = std::pow(10.0, std::floor(std::log10(metres)) - 2.0);
  return std::ceil(metres / unit) * unit;
}

double default_edge(const Scatter& scatter) {
  std::vector<double> lengths = edges_of(scatter);
  const auto middle = lengths.begin() + static_cast<std::ptrdiff_t>(lengths.size() / 2);
  std::nth_element(lengths.begin(), middle, lengths.end());
  return rounded(kMedians * *middle);
}

/// One sounding a place, the shallowest, and none that is not known; values are canonical.
void keep_shallowest(Scatter& scatter) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < scatter.values.size(); ++i) {
    if (!std::isnan(scatter.values[i])) {
      order.push_back(i);
    }
  }
  const auto key = [&](std::size_t i) {
    return std::tuple(scatter.places[i].x, scatter.places[i].y, scatter.values[i]);
  };
  std::sort(order.begin(), order.end(),
            [&](std::size_t a, std::size_t b) { return key(a) < key(b); });
  std::vector<XY> places;
  std::vector<double> values;
  for (const std::size_t i : order) {
    const XY at = scatter.places[i];
    if (places.empty() || places.back().x != at.x || places.back().y != at.y) {
      places.push_back(at);
      values.push_back(scatter.values[i]);
    }
  }
  if (places.size() < order.size()) {
    scatter.warnings.push_back(fmt::format(
        "{} points lie where another lies; the shallowest counts", order.size() - places.size()));
  }
  scatter.places = std::move(places);
  scatter.values = std::move(values);
}

/// Between points far apart nothing is known: their triangles are left out.
std::string bound_triangles(const RasterWish& wish, std::optional<double> given, Scatter& scatter,
                            Opening& opening) {
  keep_shallowest(scatter);
  scatter.triangles = opening.opener.triangulate(scatter.places);
  if (scatter.triangles.empty()) {
    refuse(wish, "its points make no triangle; it takes three near the area that are not in a row");
  }
  const double most = given.value_or(default_edge(scatter));
  const std::size_t all = scatter.triangles.size();
  std::erase_if(scatter.triangles, [&](const auto& t) {
    const XY a = scatter.places[t[0]];
    const XY b = scatter.places[t[1]];
    const XY c = scatter.places[t[2]];
    return std::max({length(a, b), length(b, c), length(c, a)}) > most;
  });
  const std::string text = fmt::format(
      "linear in triangles with edges of up to {} m{}, {} of {} triangles kept", shortest(most),
      given ? "" : " (five times the median edge; judgement)", scatter.triangles.size(), all);
  if (!given) {
    opening.warnings.push_back(fmt::format("{}: {}: {}; set {}.longest_edge_m for your soundings",
                                           wish.key, wish.file.written, text, wish.key));
  }
  return text;
}

bool in_grid(const Grid& grid, XY p) {
  return p.x >= grid.west && p.x <= grid.east() && p.y >= grid.south() && p.y <= grid.north;
}

/// Makes the values canonical, those not believed NaN, and counts those over the area.
PixelStats convert(const RasterWish& wish, const UnitChoice& unit, const Grid& grid,
                   Scatter& scatter) {
  const auto screen = screen_of(wish, unit);
  const bool areas = scatter.kind == Scatter::Kind::areas;
  PixelStats stats;
  for (std::size_t i = 0; i < scatter.values.size(); ++i) {
    double& value = scatter.values[i];
    if (std::isnan(value)) {
      continue;
    }
    const bool believed = !screen || screen->believes(static_cast<float>(value));
    const double canonical = unit.conversion(value);
    if (areas || in_grid(grid, scatter.places[i])) {
      stats.add(canonical, believed);
    }
    value = believed ? canonical : kNan;
  }
  return stats;
}

bool covers(const Surface& surface, const Grid& grid) {
  for (const Tile& tile : tiles_of(grid, kTileSide)) {
    std::vector<float> values(tile.size());
    surface.sample(grid, tile, values);
    if (std::any_of(values.begin(), values.end(), [](float v) { return !std::isnan(v); })) {
      return true;
    }
  }
  return false;
}

void add_report(const RasterWish& wish, const UnitChoice& unit, const Scatter& scatter,
                const std::string& how, Opening& opening) {
  LayerReport report;
  report.key = wish.key;
  report.file = wish.file.written;
  report.what = scatter.what;
  report.unit = unit.text;
  report.crs = scatter.crs_name;
  report.operation = scatter.operation;
  report.varies = true;
  report.basis = fmt::format("from the file; {}; {}", unit.basis, scatter.of);
  for (const std::string& more : {how, scatter.crs_basis}) {
    report.basis += more.empty() ? "" : "; " + more;
  }
  opening.reports.push_back(std::move(report));
  const auto warn = [&](const std::string& text) {
    opening.warnings.push_back(fmt::format("{}: {}: {}", wish.key, wish.file.written, text));
  };
  std::for_each(scatter.warnings.begin(), scatter.warnings.end(), warn);
  if (!scatter.crs_basis.empty()) {
    warn(scatter.crs_basis);
  }
}

std::string how_of(Scatter::Kind kind) {
  return kind == Scatter::Kind::mesh ? "linear in the mesh's own triangles, at each cell's centre"
                                     : "at each cell's centre the value of the area it is in, the "
                                       "shallowest where they lie over each other";
}

}  // namespace

FileField scatter_field(const RasterWish& wish, Scatter scatter,
                        std::optional<double> longest_edge_m, Opening& opening) {
  const bool points = scatter.kind == Scatter::Kind::points;
  const UnitChoice unit = unit_of(wish, wish.file, scatter.unit);
  FileField result;
  result.positive = scatter.positive;
  result.standard_name = scatter.standard_name;
  result.stats = convert(wish, unit, opening.grid, scatter);
  check_range(wish, result.stats, opening);
  const std::string how =
      points ? bound_triangles(wish, longest_edge_m, scatter, opening) : how_of(scatter.kind);
  result.field.surface =
      scatter.kind == Scatter::Kind::areas
          ? area_surface(opening.grid, scatter.areas, scatter.values)
          : triangle_surface(opening.grid, scatter.places, scatter.values, scatter.triangles);
  if (!covers(*result.field.surface, opening.grid)) {
    refuse(wish, scatter.box.east < 180.0
                     ? no_overlap_text(scatter.box, opening.bounds)
                     : "gives no cell of the area a depth; check area.bounds, the layer and its "
                       "reference system");
  }
  add_report(wish, unit, scatter, how, opening);
  opening.files.push_back(wish.file);
  return result;
}

}  // namespace tidelot
