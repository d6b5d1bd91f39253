// SPDX-License-Identifier: Apache-2.0
#include "run/tiles/maps.hpp"

#include <algorithm>
#include <bit>
#include <cstring>
#include <functional>
#include <limits>

namespace tidelot::run {
namespace {

constexpr std::uint32_t kNotANumber =
    std::bit_cast<std::uint32_t>(std::numeric_limits<float>::quiet_NaN());

/// Where a map's place in the mapping is told to it.
struct Slot {
  std::size_t width;  ///< bytes a cell
  std::uint32_t unknown;
  std::function<void(std::byte* first, std::size_t cells)> take;
};

template <typename T>
Slot slot(std::span<T>& map, std::uint32_t unknown) {
  return {sizeof(T), unknown, [&map](std::byte* first, std::size_t cells) {
            map = std::span(reinterpret_cast<T*>(first), cells);
          }};
}

void add_floats(std::vector<Slot>& slots,
                std::initializer_list<std::reference_wrapper<std::span<float>>> maps) {
  for (std::span<float>& map : maps) {
    slots.push_back(slot(map, kNotANumber));
  }
}

/// All maps of a choice. Those of four bytes come first, so that each lies as its type asks.
std::vector<Slot> slots_of(Maps& maps, const MapChoice& choice) {
  std::vector<Slot> slots;
  add_floats(slots,
             {maps.suitability, maps.yield_kg_per_m, maps.nitrogen_g_per_m, maps.depth_low_water,
              maps.outplant, maps.last_haul, maps.harvests, maps.coverage});
  if (choice.lowest) {
    add_floats(slots, {maps.lowest});
  }
  if (choice.axis) {
    add_floats(slots, {maps.axis_deg});
  }
  if (choice.spread) {
    SpreadMaps& spread = maps.spread.emplace();
    for (SpreadBands* bands : {&spread.yield_kg_per_m, &spread.nitrogen_g_per_m}) {
      add_floats(slots, {bands->p10, bands->p50, bands->p90});
    }
    add_floats(slots, {spread.confidence});
  }
  if (choice.open) {
    OpenWater& open = maps.open.emplace();
    add_floats(slots, {open.suitability, open.season_current});
    slots.push_back(slot(open.rules_unknown, 0));
  }
  slots.push_back(slot(maps.closed, 0));
  slots.push_back(slot(maps.reason, 0));
  if (choice.depth_sources > 1) {
    slots.push_back(slot(maps.depth_source, kNoSource));
  }
  return slots;
}

std::size_t width_of(const std::vector<Slot>& slots) {
  std::size_t width = 0;
  for (const Slot& each : slots) {
    width += each.width;
  }
  return width;
}

void fill(std::byte* first, std::size_t width, std::size_t cells, std::uint32_t unknown) {
  if (width == sizeof(unknown)) {
    std::fill_n(reinterpret_cast<std::uint32_t*>(first), cells, unknown);
  } else {
    std::memset(first, static_cast<int>(unknown), cells);
  }
}

}  // namespace

Maps::Maps(std::size_t cells, const MapChoice& choice) : Maps(cells, choice, nullptr) {
  for (const Plane& plane : planes_) {
    fill(plane.first, plane.width, cells, plane.unknown);
  }
}

Maps Maps::scratch(std::size_t cells, const MapChoice& choice) { return {cells, choice, nullptr}; }

Maps::Maps(std::size_t cells, const MapChoice& choice, const std::filesystem::path& file)
    : Maps(cells, choice, &file) {}

Maps::Maps(std::size_t cells, const MapChoice& choice, const std::filesystem::path* file) {
  const std::vector<Slot> slots = slots_of(*this, choice);
  const std::size_t bytes = width_of(slots) * cells;
  memory_ = file == nullptr ? MappedCells(bytes) : MappedCells(*file, bytes);
  std::byte* next = memory_.bytes().data();
  for (const Slot& each : slots) {
    each.take(next, cells);
    planes_.push_back({next, each.width, each.unknown});
    next += each.width * cells;
  }
}

std::size_t Maps::bytes_a_cell() const {
  std::size_t bytes = 0;
  for (const Plane& plane : planes_) {
    bytes += plane.width;
  }
  return bytes;
}

/// Calls with the first byte and the number of cells of every row of the tile, map by map.
template <typename Work>
void Maps::each_row(const Grid& grid, const Tile& tile, const Work& work) const {
  for (const Plane& plane : planes_) {
    for (int row = tile.row0; row < tile.row0 + tile.rows; ++row) {
      work(plane, plane.first + grid.index(tile.col0, row) * plane.width,
           static_cast<std::size_t>(tile.cols));
    }
  }
}

void Maps::clear(const Grid& grid, const Tile& tile) {
  each_row(grid, tile, [](const Plane& plane, std::byte* row, std::size_t cells) {
    fill(row, plane.width, cells, plane.unknown);
  });
}

std::vector<std::byte> Maps::bytes_of(const Grid& grid, const Tile& tile) const {
  std::vector<std::byte> out;
  out.reserve(bytes_a_cell() * tile.size());
  each_row(grid, tile, [&](const Plane& plane, const std::byte* row, std::size_t cells) {
    out.insert(out.end(), row, row + cells * plane.width);
  });
  return out;
}

void Maps::put(const Grid& grid, const Tile& tile, std::span<const std::byte> bytes) {
  each_row(grid, tile, [&](const Plane& plane, std::byte* row, std::size_t cells) {
    const std::span<const std::byte> part = bytes.first(cells * plane.width);
    std::copy(part.begin(), part.end(), row);
    bytes = bytes.subspan(part.size());
  });
}

ScoredMaps Maps::view() const {
  const std::span<const float> confidence =
      spread ? std::span<const float>(spread->confidence) : std::span<const float>{};
  return {suitability,  yield_kg_per_m, nitrogen_g_per_m, depth_low_water, closed,
          reason,       outplant,       last_haul,        harvests,        landing_m,
          depth_source, axis_deg,       confidence,       waves,           coverage};
}

}  // namespace tidelot::run
