// SPDX-License-Identifier: Apache-2.0
#include "run/resume/tile_record.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#define XXH_INLINE_ALL
#include <xxhash.h>

#include <sstream>
#include <utility>
#include <vector>

namespace tidelot::run {
namespace {

constexpr std::size_t kOfLattice = 4;

/// Water, open and suitable cells of each member, one after the other; then the lattice's counts.
std::vector<std::uint64_t> numbers_of(const GroupCounts& counted) {
  std::vector<std::uint64_t> out;
  const MemberCells& cells = counted.cells;
  for (const std::vector<std::size_t>* each : {&cells.water, &cells.open, &cells.suitable}) {
    out.insert(out.end(), each->begin(), each->end());
  }
  const LatticeCount& lattice = counted.lattice;
  out.insert(out.end(), {lattice.cells, lattice.grown, lattice.exact, lattice.probes});
  return out;
}

/// None where they are not as many.
std::optional<GroupCounts> counts_of(const std::vector<std::uint64_t>& numbers) {
  if (numbers.size() < kOfLattice || (numbers.size() - kOfLattice) % 3 != 0) {
    return std::nullopt;
  }
  const std::size_t members = (numbers.size() - kOfLattice) / 3;
  GroupCounts out{MemberCells(members), {}};
  for (std::size_t m = 0; m < members; ++m) {
    out.cells.water[m] = numbers[m];
    out.cells.open[m] = numbers[members + m];
    out.cells.suitable[m] = numbers[2 * members + m];
  }
  const std::uint64_t* rest = &numbers[3 * members];
  out.lattice = {rest[0], rest[1], rest[2], rest[3]};
  return out;
}

/// Over the cells, then the counts, under the tile's number.
std::uint64_t sum_of(std::size_t tile, std::span<const std::byte> cells,
                     const GroupCounts& counted) {
  const std::vector<std::uint64_t> numbers = numbers_of(counted);
  const std::uint64_t of_cells = XXH3_64bits_withSeed(cells.data(), cells.size(), tile);
  return XXH3_64bits_withSeed(numbers.data(), numbers.size() * sizeof(std::uint64_t), of_cells);
}

}  // namespace

bool TileLine::fits(std::span<const std::byte> cells) const {
  return sum_of(tile, cells, counted) == sum;
}

std::string tile_line(std::size_t tile, std::span<const std::byte> cells,
                      const GroupCounts& counted) {
  return fmt::format("{} {:016x} {}", tile, sum_of(tile, cells, counted),
                     fmt::join(numbers_of(counted), " "));
}

std::optional<TileLine> read_tile_line(const std::string& line) {
  std::istringstream words(line);
  TileLine out;
  if (!(words >> out.tile >> std::hex >> out.sum >> std::dec)) {
    return std::nullopt;
  }
  std::vector<std::uint64_t> numbers;
  for (std::uint64_t number = 0; words >> number;) {
    numbers.push_back(number);
  }
  std::optional<GroupCounts> counted = counts_of(numbers);
  if (!counted || !words.eof()) {
    return std::nullopt;
  }
  out.counted = std::move(*counted);
  return out;
}

std::string record_of(const TileRecord& record) {
  std::string out = tile_line(record.tile, record.cells, record.counted) + "\n";
  out.append(reinterpret_cast<const char*>(record.cells.data()), record.cells.size());
  return out;
}

std::optional<TileRecord> read_record(std::string_view text) {
  const std::size_t end = text.find('\n');
  if (end == std::string_view::npos) {
    return std::nullopt;
  }
  const std::string line(text.substr(0, end));
  std::optional<TileLine> read = read_tile_line(line);
  const auto cells = std::as_bytes(std::span(text.substr(end + 1)));
  // Blanks and leading noughts do not change a number, but nobody wrote them so.
  if (!read || tile_line(read->tile, cells, read->counted) != line) {
    return std::nullopt;
  }
  return TileRecord{read->tile, std::move(read->counted), cells};
}

}  // namespace tidelot::run
