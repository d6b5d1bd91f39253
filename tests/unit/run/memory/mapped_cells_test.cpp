// SPDX-License-Identifier: Apache-2.0
#include "run/memory/mapped_cells.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "support/temp_folder.hpp"
#include "tidelot/core/error.hpp"

namespace tidelot::run {
namespace {

bool all_zero(std::span<const std::byte> bytes) {
  return std::all_of(bytes.begin(), bytes.end(), [](std::byte b) { return b == std::byte{0}; });
}

TEST_CASE("mapped memory starts as zeros", "[run]") {
  const MappedCells memory(100'000);
  CHECK(memory.bytes().size() == 100'000);
  CHECK(all_zero(memory.bytes()));
}

TEST_CASE("a mapped file keeps what was written, also when its pages were given back", "[run]") {
  const test::TempFolder top;
  {
    const MappedCells file(top / "cells", 100'000);
    CHECK(all_zero(file.bytes()));
    file.bytes()[70'000] = std::byte{7};
    MappedCells::release_all();
    CHECK(file.bytes()[70'000] == std::byte{7});
  }
  const MappedCells again(top / "cells", 100'000);
  CHECK(again.bytes()[70'000] == std::byte{7});
  CHECK(std::filesystem::file_size(top / "cells") == 100'000);
}

TEST_CASE("a mapped file of another size starts anew", "[run]") {
  const test::TempFolder top;
  { MappedCells(top / "cells", 5'000).bytes()[1] = std::byte{7}; }
  const MappedCells longer(top / "cells", 6'000);
  CHECK(longer.bytes().size() == 6'000);
  CHECK(all_zero(longer.bytes()));
}

TEST_CASE("a file without a name holds what was written, and the folder stays empty", "[run]") {
  const test::TempFolder top;
  const MappedCells file = MappedCells::nameless(top / "", 100'000);
  CHECK(all_zero(file.bytes()));
  file.bytes()[70'000] = std::byte{7};
  MappedCells::release_all();
  CHECK(file.bytes()[70'000] == std::byte{7});
  CHECK(std::filesystem::is_empty(top / ""));
  CHECK_THROWS_AS(MappedCells::nameless(top / "none", 100), Error);
}

TEST_CASE("what is moved goes with its bytes", "[run]") {
  MappedCells first(1'000);
  first.bytes()[3] = std::byte{9};
  MappedCells second = std::move(first);
  CHECK(second.bytes()[3] == std::byte{9});
  first = MappedCells(2'000);
  CHECK(first.bytes().size() == 2'000);
}

TEST_CASE("a file that has no room is refused by name", "[run]") {
  const test::TempFolder top;
  for (const auto& [file, bytes] : {std::pair{top / "none/cells", std::size_t{1'000}},
                                    std::pair{top / "cells", std::size_t{1} << 60U}}) {
    try {
      const MappedCells never(file, bytes);
      FAIL("it was mapped");
    } catch (const Error& error) {
      CHECK(error.fault() == Fault::output);
      CHECK(std::string(error.what()).find(file.string() + ": cannot keep") == 0);
    }
  }
}

}  // namespace
}  // namespace tidelot::run
