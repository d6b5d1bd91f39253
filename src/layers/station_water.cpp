// SPDX-License-Identifier: Apache-2.0
#include "station_water.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

constexpr std::size_t kMaxCells = 200'000;      // of the working lattice
constexpr std::size_t kFewestCells = 20'000;    // however many the places are
constexpr std::size_t kMaxVisits = 40'000'000;  // cells times places: some ten seconds
constexpr std::size_t kNamed = 5;               // places named in a warning

[[noreturn]] void refuse(const StationWish& wish, const std::string& what) {
  throw Error(Fault::input, fmt::format("{}: {}: {}", wish.key, wish.source.file.written, what));
}

std::string text_of(const StationMeans& place) {
  return place.station.empty()
             ? fmt::format("{}, {}", shortest(place.place.lon), shortest(place.place.lat))
             : place.station;
}

/// The system of a position by the name of its datum; "" for a name that is not known.
std::string system_of(const std::string& datum) {
  std::string plain = lower_ascii(datum);
  plain.erase(std::remove(plain.begin(), plain.end(), ' '), plain.end());
  return plain == "nad27"                    ? "EPSG:4267"
         : plain == "nad83"                  ? "EPSG:4269"
         : plain.empty() || plain == "wgs84" ? "EPSG:4326"
                                             : "";
}

/// Positions in the grid's system, and what brought them there.
struct Projected {
  std::vector<XY> at;
  std::string operation;
};

Projected projected(const StationWish& wish, const std::vector<StationMeans>& places,
                    Opening& opening) {
  Projected out;
  std::map<std::string, std::unique_ptr<Projector>> projectors;
  std::size_t unknown = 0;
  for (const StationMeans& place : places) {
    const std::string named = system_of(place.datum);
    unknown += named.empty() ? 1 : 0;
    const std::string system = named.empty() ? "EPSG:4326" : named;
    auto& projector = projectors[system];
    if (!projector) {
      projector = opening.opener.projector(system, opening.grid.crs, wish.key, opening.bounds);
      out.operation += (out.operation.empty() ? "" : "; ") + projector->operation();
    }
    std::array<XY, 1> at{XY{place.place.lon, place.place.lat}};
    projector->forward(at);
    out.at.push_back(at[0]);
  }
  if (unknown > 0) {
    warn_of(
        wish,
        fmt::format("{} places whose datum is not NAD27, NAD83 or WGS84 are taken as WGS 84; they "
                    "may be off by 100 m or more",
                    unknown),
        opening);
  }
  return out;
}

/// From a place to the nearest edge of a cell, 0 inside.
double distance_to_cell(const Grid& grid, std::size_t cell, XY place) {
  const auto cols = static_cast<std::size_t>(grid.cols);
  const XY c = grid.centre(static_cast<int>(cell % cols), static_cast<int>(cell / cols));
  const double half = grid.cell_m / 2.0;
  return std::hypot(std::max(0.0, std::abs(c.x - place.x) - half),
                    std::max(0.0, std::abs(c.y - place.y) - half));
}

/// Places on the lattice. far: the names of those too far from water. found: places on water and
/// ashore; those beside water are neither, as many stations are piers.
Afloat afloat(const StationWish& wish, const std::vector<StationMeans>& places,
              const std::vector<XY>& at, const Waterway& way, std::vector<std::string>& far,
              WaterTally& found) {
  const Grid& grid = way.grid();
  Afloat out;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const Cell own = grid.cell_of(at[i]);
    const bool on_water = grid.holds(own) && way.water(grid.index(own.col, own.row));
    const std::size_t cell = on_water ? grid.index(own.col, own.row) : way.nearest_water(at[i]);
    const double off_m =
        cell == grid.size() ? wish.source.snap_m + 1.0 : distance_to_cell(grid, cell, at[i]);
    found.water += on_water ? 1 : 0;
    found.land += off_m > grid.cell_m && grid.holds(own) ? 1 : 0;
    if (!(off_m <= wish.source.snap_m)) {
      far.push_back(text_of(places[i]));
    } else {
      out.places.push_back(places[i]);
      out.means.push_back({cell, places[i].mean});
    }
  }
  return out;
}

LonLatBox box_of(const std::vector<StationMeans>& places) {
  LonLatBox box{180.0, 90.0, -180.0, -90.0};
  for (const StationMeans& place : places) {
    box.west = std::min(box.west, place.place.lon);
    box.east = std::max(box.east, place.place.lon);
    box.south = std::min(box.south, place.place.lat);
    box.north = std::max(box.north, place.place.lat);
  }
  return box;
}

bool overlap(const LonLatBox& a, const LonLatBox& b) {
  return a.west <= b.east && b.west <= a.east && a.south <= b.north && b.south <= a.north;
}

void check_places(const StationWish& wish, const std::vector<StationMeans>& places, bool any,
                  const std::vector<std::string>& far, Opening& opening) {
  const LonLatBox box = box_of(places);
  if (!any && !overlap(box, opening.bounds)) {
    refuse(wish, no_overlap_text(box, opening.bounds));
  }
  if (!any) {
    refuse(wish,
           fmt::format("no station lies within {} m of water in the area; check depth.positive, "
                       "positions, or {}.snap_m",
                       shortest(wish.source.snap_m), wish.key));
  }
  if (!far.empty()) {
    const std::vector<std::string> named(
        far.begin(), far.begin() + static_cast<std::ptrdiff_t>(std::min(far.size(), kNamed)));
    warn_of(wish,
            fmt::format(
                "{} place{} farther than {} m (snap_m) from the water of the area left out: {}{}",
                far.size(), far.size() == 1 ? "" : "s", shortest(wish.source.snap_m),
                fmt::join(named, ", "), far.size() > kNamed ? ", ..." : ""),
            opening);
  }
}

}  // namespace

void warn_of(const StationWish& wish, const std::string& what, Opening& opening) {
  opening.warnings.push_back(fmt::format("{}: {}: {}", wish.key, wish.source.file.written, what));
}

WorkingWater working_water(std::size_t places, Opening& opening) {
  const int block =
      block_for(opening.grid, std::clamp(kMaxVisits / places, kFewestCells, kMaxCells));
  auto& way = opening.waterways[block];
  if (!way) {
    way = std::make_shared<const Waterway>(water_lattice(opening.grid, block, opening.depth));
  }
  return {way, block};
}

Afloat put_afloat(const StationWish& wish, const std::vector<StationMeans>& places,
                  Opening& opening) {
  const Projected at = projected(wish, places, opening);
  const auto [way, block] = working_water(places.size(), opening);
  std::vector<std::string> far;
  WaterTally found;
  Afloat out = afloat(wish, places, at.at, *way, far, found);
  opening.sea_witnesses.push_back({"stations of " + wish.key, 1.0, found});
  check_places(wish, places, !out.places.empty(), far, opening);
  out.way = way;
  out.block = block;
  out.operation = at.operation;
  return out;
}

}  // namespace tidelot
