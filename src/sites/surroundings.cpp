// SPDX-License-Identifier: Apache-2.0
#include "sites/surroundings.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sites/nearest.hpp"
#include "tidelot/criteria/reason_codes.hpp"
#include "tidelot/sites/positions.hpp"

namespace tidelot {
namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();

Shape square(const Grid& grid, Cell cell) {
  const double west = grid.west + cell.col * grid.cell_m;
  const double north = grid.north - cell.row * grid.cell_m;
  const double east = west + grid.cell_m;
  const double south = north - grid.cell_m;
  Shape shape;
  shape.polygons.push_back(
      {{{west, north}, {east, north}, {east, south}, {west, south}, {west, north}}, {}});
  return shape;
}

/// Looks at square rings of cells around the site, from the inside out.
class Search {
 public:
  Search(const SiteBox& box, const Grid& grid, std::span<const std::uint8_t> reason)
      : box_(box),
        grid_(grid),
        reason_(reason),
        middle_(grid.cell_of(box.centre())),
        unseen_m_(to_map_edge()) {}

  void run() {
    const int last = std::max(grid_.cols, grid_.rows);
    for (int ring = 0; ring <= last && least_m(ring) <= land_.distance_m; ++ring) {
      look_at_ring(ring);
    }
  }
  [[nodiscard]] const NearestPoints& land() const { return land_; }
  /// Is the map's edge, or that of its outline, nearer than the land found?
  [[nodiscard]] bool ends_nearer() const { return unseen_m_ < land_.distance_m; }

 private:
  /// No cell of a ring is nearer than this.
  [[nodiscard]] double least_m(int ring) const {
    return (ring - 1) * grid_.cell_m - box_.reach_m();
  }

  [[nodiscard]] double to_map_edge() const {
    double least = kFar;
    for (const XY corner : box_.corners()) {
      least = std::min({least, corner.x - grid_.west, grid_.east() - corner.x,
                        corner.y - grid_.south(), grid_.north - corner.y});
    }
    return least;
  }

  void look_at_ring(int ring) {
    for (int row = std::max(0, middle_.row - ring);
         row <= std::min(grid_.rows - 1, middle_.row + ring); ++row) {
      const bool whole = std::abs(row - middle_.row) == ring;
      const int step = whole ? 1 : 2 * ring;
      for (int col = middle_.col - ring; col <= middle_.col + ring; col += step) {
        if (col >= 0 && col < grid_.cols) {
          look_at({col, row}, ring);
        }
      }
    }
  }

  void look_at(Cell cell, int ring) {
    const std::uint8_t code = reason_[grid_.index(cell.col, cell.row)];
    if (code == reason::kLand) {
      const NearestPoints here = nearest_of(box_, square(grid_, cell));
      land_ = here.distance_m < land_.distance_m ? here : land_;
    } else if (code == reason::kOutside && least_m(ring) < unseen_m_) {
      unseen_m_ = std::min(unseen_m_, nearest_of(box_, square(grid_, cell)).distance_m);
    }
  }

  const SiteBox& box_;
  const Grid& grid_;
  std::span<const std::uint8_t> reason_;
  Cell middle_;
  double unseen_m_;
  NearestPoints land_{kFar, {}, {}};
};

}  // namespace

std::optional<Shore> shore_of(const SiteBox& box, const Grid& grid,
                              std::span<const std::uint8_t> reason, Projector& grid_to_lonlat,
                              const Geodesy& geodesy) {
  Search search(box, grid, reason);
  search.run();
  const NearestPoints& land = search.land();
  if (!std::isfinite(land.distance_m)) {
    return std::nullopt;
  }
  Shore shore;
  shore.distance_m = true_distance_m(land, grid_to_lonlat, geodesy);
  shore.bearing_deg = bearing_from_centre(box, land.on_segment, grid_to_lonlat, geodesy);
  shore.map_ends_nearer = search.ends_nearer();
  return shore;
}

void add_directions(const Survey& survey, const SiteBox& box, Site& site) {
  if (survey.plan.sites.landing) {
    site.landing = direction_to(*survey.plan.sites.landing, site.centre, survey.geodesy);
  }
  for (const MarkPlan& mark : survey.plan.report.marks) {
    site.marks.push_back(direction_to(mark.at, site.centre, survey.geodesy));
  }
  site.shore =
      shore_of(box, survey.grid, survey.maps.reason, survey.grid_to_lonlat, survey.geodesy);
}

}  // namespace tidelot
