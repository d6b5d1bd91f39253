// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "report/maps/colour.hpp"
#include "tidelot/core/grid_vector.hpp"
#include "tidelot/report/report.hpp"

/// The maps of the page: one byte for every sampled cell. The picture is painted from it and the
/// value under the pointer is read from it, so the two never differ.
namespace tidelot::page {

/// Codes of a coded map. From kFirstValue to 255 they run evenly from low to high.
namespace code {
inline constexpr std::uint8_t kOutside = 0;
inline constexpr std::uint8_t kLand = 1;
inline constexpr std::uint8_t kNotKnown = 2;
inline constexpr std::uint8_t kSpecial = 3;  ///< closed water, or no season
inline constexpr std::uint8_t kFirstValue = 4;
}  // namespace code

/// Which cells are shown: at most `most` a side, picked, not averaged.
struct Sampling {
  int cols = 0;
  int rows = 0;
  std::vector<std::size_t> row_begin;  ///< index in the grid of each picked row's first cell
  std::vector<std::size_t> col;        ///< each picked column

  [[nodiscard]] std::size_t size() const { return row_begin.size() * col.size(); }
  /// Calls look(sample, its cell's index in the grid), row by row.
  template <typename Look>
  void each(const Look& look) const {
    // Of a few maps at once; the rows between two picked ones come into memory with them.
    constexpr std::size_t kBytesOfCell = 3 * sizeof(float);
    std::size_t sample = 0;
    std::size_t before = 0;
    for (const std::size_t begin : row_begin) {
      for (const std::size_t across : col) {
        look(sample++, begin + across);
      }
      walked_over((begin - std::exchange(before, begin)) * kBytesOfCell);
    }
  }
};
inline constexpr int kMaxSide = 2400;
[[nodiscard]] Sampling sampling_of(const Grid& grid, int most = kMaxSide);

/// How a code looks.
struct Style {
  Rgb base;
  int texture = 0;  ///< 0 plain; see texture_ink()
  Rgb ink;
  bool clear = false;  ///< nothing is painted
};

/// A line of the legend.
struct LegendEntry {
  std::string label;
  Style style;
};

/// One way to write a map's values: a value times the factor, with so many decimals.
struct MapUnit {
  std::string name;  ///< "ft"; "" where it has none
  double factor = 1.0;
  int decimals = 2;
};

struct CodedMap {
  std::string key;               ///< "suitability"
  std::string button;            ///< "Suitability"
  std::string about;             ///< what it is, a sentence or two
  std::vector<MapUnit> units;    ///< one or two, as the plan asks; the first one's range is round
  double low = 0.0, high = 1.0;  ///< in the map's own unit
  std::string special;           ///< what kSpecial means, "" when unused
  bool classes = false;          ///< codes are those of maps/reason.tif
  std::vector<std::uint32_t> sets;  ///< of a map of rules: the bits that each code stands for
  std::vector<std::uint8_t> codes;  ///< one a sample
  std::array<Style, 256> styles{};
  Ramp ramp;                         ///< empty for classes
  std::vector<LegendEntry> entries;  ///< besides the ramp
};

/// The maps that buttons choose, in their order.
[[nodiscard]] std::vector<CodedMap> shown_maps(const ReportData& data, const Sampling& sampling,
                                               const EachOf& each = in_turn);
/// Read out only: outplant and last haul, days of the year, and the rules that close a place.
[[nodiscard]] std::vector<CodedMap> read_out_maps(const ReportData& data, const Sampling& sampling,
                                                  const EachOf& each = in_turn);

/// The value that a code stands for.
[[nodiscard]] double value_of(const CodedMap& map, std::uint8_t code);

/// How the codes of maps/reason.tif look, on the page and in other programs.
struct ReasonLooks {
  std::array<Style, 256> styles{};    ///< by code; one that does not occur looks not known
  std::vector<std::uint8_t> present;  ///< those of water that occur, the most frequent first
};
[[nodiscard]] ReasonLooks reason_looks(const ReportData& data);

/// What holds the water back, by class; in reason_map.cpp.
[[nodiscard]] CodedMap reason_map(const ReportData& data, const Sampling& sampling);
/// Which rules close a place, all of them: a code for every set of rules that occurs.
[[nodiscard]] CodedMap closed_map(const ReportData& data, const Sampling& sampling);

/// Styles that every map shares.
[[nodiscard]] Style land_style();
[[nodiscard]] Style not_known_style();
[[nodiscard]] Style closed_style();

}  // namespace tidelot::page
