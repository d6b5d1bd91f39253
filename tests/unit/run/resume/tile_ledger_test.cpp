// SPDX-License-Identifier: Apache-2.0
#include "run/resume/tile_ledger.hpp"

#include <catch2/catch.hpp>
#include <fstream>

#include "support/temp_folder.hpp"
#include "tidelot/core/error.hpp"

namespace tidelot::run {
namespace {

std::vector<std::byte> cells(int first) {
  std::vector<std::byte> out;
  for (int i = 0; i < 100; ++i) {
    out.push_back(static_cast<std::byte>(first + i));
  }
  return out;
}

GroupCounts counts(std::size_t water) {
  GroupCounts out{MemberCells(2), {9, 8, 7, 6}};
  out.cells.water = {water, water + 1};
  out.cells.open = {3, 0};
  out.cells.suitable = {1, 0};
  return out;
}

std::string text_in(const std::filesystem::path& file) { return test::bytes_of(file); }

void put(const std::filesystem::path& file, const std::string& text) {
  std::ofstream(file, std::ios::binary) << text;
}

/// Two finished tiles of the run "a".
void two_tiles(const std::filesystem::path& file) {
  TileLedger ledger(file, "a");
  ledger.add(0, cells(0), counts(10));
  ledger.add(7, cells(1), counts(20));
}

TEST_CASE("a ledger gives back what was noted for the same cells, tile by tile", "[run]") {
  const test::TempFolder top;
  two_tiles(top / "tiles");
  const TileLedger again(top / "tiles", "a");
  CHECK(again.goes_on());
  const auto kept = again.kept(7, cells(1));
  REQUIRE(kept);
  CHECK(kept->cells.water == std::vector<std::size_t>{20, 21});
  CHECK(kept->cells.open == std::vector<std::size_t>{3, 0});
  CHECK(kept->cells.suitable == std::vector<std::size_t>{1, 0});
  CHECK(kept->lattice.cells == 9);
  CHECK(kept->lattice.probes == 6);
  CHECK_FALSE(again.kept(7, cells(0)));  // other cells
  CHECK_FALSE(again.kept(0, cells(1)));
  CHECK_FALSE(again.kept(3, cells(0)));  // never finished
}

TEST_CASE("a tile without members keeps none", "[run]") {
  const test::TempFolder top;
  { TileLedger(top / "tiles", "a").add(2, cells(2), GroupCounts()); }
  const auto kept = TileLedger(top / "tiles", "a").kept(2, cells(2));
  REQUIRE(kept);
  CHECK(kept->cells.water.empty());
}

TEST_CASE("a ledger of another run is made anew", "[run]") {
  const test::TempFolder top;
  two_tiles(top / "tiles");
  { CHECK_FALSE(TileLedger(top / "tiles", "b").goes_on()); }
  CHECK_FALSE(TileLedger(top / "tiles", "a").goes_on());
}

TEST_CASE("cut off at any byte, a ledger keeps whole lines only", "[run]") {
  const test::TempFolder top;
  two_tiles(top / "whole");
  const std::string whole = text_in(top / "whole");
  const std::size_t second = whole.find("\n7 ") + 1;
  for (std::size_t length = 0; length <= whole.size(); ++length) {
    put(top / "tiles", whole.substr(0, length));
    {
      TileLedger ledger(top / "tiles", "a");
      // The last line holds its last number before the line ends: then it is whole.
      CHECK(ledger.kept(0, cells(0)).has_value() == (length + 1 >= second));
      CHECK(ledger.kept(7, cells(1)).has_value() == (length + 1 >= whole.size()));
      ledger.add(9, cells(9), counts(1));
    }
    CHECK(TileLedger(top / "tiles", "a").kept(9, cells(9)).has_value());
  }
}

TEST_CASE("a changed byte anywhere in a line makes its tile count as not done", "[run]") {
  const test::TempFolder top;
  two_tiles(top / "whole");
  const std::string whole = text_in(top / "whole");
  const std::size_t second = whole.find("\n7 ") + 1;
  for (std::size_t at = second; at + 1 < whole.size(); ++at) {
    std::string changed = whole;
    changed[at] = changed[at] == '1' ? '2' : '1';
    put(top / "tiles", changed);
    const TileLedger ledger(top / "tiles", "a");
    INFO(changed.substr(second));
    CHECK_FALSE(ledger.kept(7, cells(1)));
    CHECK(ledger.kept(0, cells(0)));
  }
}

TEST_CASE("a ledger that cannot be written names itself", "[run]") {
  const test::TempFolder top;
  try {
    TileLedger(top / "none/tiles", "a");
    FAIL("it was written");
  } catch (const Error& error) {
    CHECK(error.fault() == Fault::output);
    CHECK(std::string(error.what()).find("none/tiles: cannot make the file") != std::string::npos);
  }
}

}  // namespace
}  // namespace tidelot::run
