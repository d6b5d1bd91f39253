// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "run/tiles/tile_job.hpp"

namespace tidelot::run {

/// What is told of a finished tile in a line of text: its number, a sum over its cells and counts,
/// and the counts. Ledgers, parts of a run and processes that share one all speak it.
struct TileLine {
  std::size_t tile = 0;
  std::uint64_t sum = 0;
  GroupCounts counted;
  /// Is the sum one over these cells and the line's own tile and counts?
  [[nodiscard]] bool fits(std::span<const std::byte> cells) const;
};

/// Without the end of the line. cells: as Maps::bytes_of.
[[nodiscard]] std::string tile_line(std::size_t tile, std::span<const std::byte> cells,
                                    const GroupCounts& counted);
/// None where it is no such line.
[[nodiscard]] std::optional<TileLine> read_tile_line(const std::string& line);

/// A tile on its way from one process to another.
struct TileRecord {
  std::size_t tile = 0;
  GroupCounts counted;
  std::span<const std::byte> cells;
};

/// The tile's line, the end of the line, its cells.
[[nodiscard]] std::string record_of(const TileRecord& record);
/// The cells stay where the text is. None where a byte is not as record_of wrote it.
[[nodiscard]] std::optional<TileRecord> read_record(std::string_view text);

}  // namespace tidelot::run
