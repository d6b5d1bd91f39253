// SPDX-License-Identifier: Apache-2.0
#include "run/resume/part_file.hpp"

#include <catch2/catch.hpp>
#include <fstream>

#include "report/folder/folder_owner.hpp"
#include "support/temp_folder.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/report/output_folder.hpp"

namespace tidelot::run {
namespace {

constexpr Part kPart{2, 3};  // tiles 1 and 4 of five

std::vector<std::byte> cells(std::size_t tile) {
  return std::vector<std::byte>(10 + tile, static_cast<std::byte>(tile));
}

GroupCounts counts(std::size_t tile) {
  GroupCounts out{MemberCells(1), {}};
  out.cells.water = {100 + tile};
  return out;
}

PartReading reading() {
  PartReading out{"id", {}, 1};
  for (std::size_t tile = 0; tile < 5; ++tile) {
    out.tile_bytes.push_back(cells(tile).size());
  }
  return out;
}

/// Writes the part with these tiles.
void write(const std::filesystem::path& folder, const std::vector<std::size_t>& tiles) {
  PartFile file(folder, kPart, "id");
  for (const std::size_t tile : tiles) {
    file.add(record_of({tile, counts(tile), cells(tile)}));
  }
  file.finish();
}

/// The tiles of a part, or what is said against it.
std::string read(const std::filesystem::path& file, const PartReading& against = reading()) {
  std::string out;
  try {
    read_part(file, kPart, against, "DO SO", [&](const TileRecord& record) {
      CHECK(record.counted.cells.water == counts(record.tile).cells.water);
      CHECK(std::vector(record.cells.begin(), record.cells.end()) == cells(record.tile));
      out += std::to_string(record.tile) + " ";
    });
  } catch (const Error& error) {
    CHECK(error.fault() == Fault::input);
    return error.what();
  }
  return out;
}

/// A new file each time: to write over an old one waits for the disk on some file systems.
void put(const std::filesystem::path& file, const std::string& text) {
  std::filesystem::remove(file);
  std::ofstream(file, std::ios::binary) << text;
}

TEST_CASE("a part gives back its tiles in the order in which they were finished", "[run]") {
  const test::TempFolder top;
  write(top.path(), {4, 1});
  CHECK(read(part_path(top.path(), kPart)) == "4 1 ");
  CHECK(top.count() == 1);
}

TEST_CASE("cut off at any byte, a part is refused with the command that makes it", "[run]") {
  const test::TempFolder top;
  write(top.path(), {1, 4});
  const std::string whole = test::bytes_of(part_path(top.path(), kPart));
  for (std::size_t length = 0; length < whole.size(); ++length) {
    put(top / "cut", whole.substr(0, length));
    CHECK(read(top / "cut") ==
          (top / "cut").string() + ": part 2 of 3 is not whole; make it again: DO SO");
  }
  put(top / "cut", whole + "x");
  CHECK(read(top / "cut").find("is not whole") != std::string::npos);
}

TEST_CASE("a changed byte anywhere in a part is noticed", "[run]") {
  const test::TempFolder top;
  write(top.path(), {1, 4});
  const std::string whole = test::bytes_of(part_path(top.path(), kPart));
  for (std::size_t at = 0; at < whole.size(); ++at) {
    for (const int flip : {1, 32, 255}) {
      std::string changed = whole;
      changed[at] = static_cast<char>(changed[at] ^ flip);
      put(top / "changed", changed);
      INFO(at << " ^ " << flip);
      CHECK(read(top / "changed").find("make it again: DO SO") != std::string::npos);
    }
  }
}

TEST_CASE("a part of another run, of other tiles or none is refused", "[run]") {
  const test::TempFolder top;
  CHECK(read(top / "none").find("is missing") != std::string::npos);
  write(top.path(), {1, 4});
  PartReading other = reading();
  other.identity = "another";
  CHECK(read(part_path(top.path(), kPart), other).find("another plan") != std::string::npos);
  other = reading();
  other.members = 2;
  CHECK(read(part_path(top.path(), kPart), other).find("not whole") != std::string::npos);
  for (const std::vector<std::size_t>& tiles :
       {std::vector<std::size_t>{1}, {1, 1}, {1, 4, 4}, {1, 3}, {1, 7}}) {
    PartFile file(top.path(), kPart, "id");
    for (const std::size_t tile : tiles) {
      file.add(record_of({tile, counts(tile), cells(tile)}));
    }
    file.finish();
    CHECK(read(part_path(top.path(), kPart)).find("not whole") != std::string::npos);
  }
}

TEST_CASE("a part that is not finished leaves nothing, and what is no part is not found", "[run]") {
  const test::TempFolder top;
  { PartFile(top.path(), kPart, "id").add("x"); }
  CHECK(top.count() == 0);
  write(top.path(), {1, 4});
  put(top / ".tidelot-part-2-of-3.17-0", "x");
  put(top / ".tidelot-part-02-of-3", "x");
  put(top / ".tidelot-part-1-of-3x", "x");
  const std::vector<Part> found = parts_in(top.path());
  REQUIRE(found.size() == 1);
  CHECK(found[0].number == 2);
  CHECK(found[0].of == 3);
  CHECK(part_files(top.path()).size() == 4);
  CHECK(parts_in(top / "none").empty());
}

TEST_CASE("a folder that holds only parts takes results, one with more does not", "[run]") {
  const test::TempFolder top;
  make_part_folder(top / "a/b");
  write(top / "a/b", {1, 4});
  CHECK_NOTHROW(make_part_folder(top / "a/b"));
  { OutputFolder folder(top / "a/b"); }
  CHECK(read(part_path(top / "a/b", kPart)) == "1 4 ");  // an unfinished run leaves them
  put(top / "a/b/letter", "x");
  CHECK_THROWS_AS(OutputFolder(top / "a/b"), Error);
  CHECK_THROWS_AS(make_part_folder(top / "a/b"), Error);
}

TEST_CASE("a part in a folder that is not there names its file", "[run]") {
  const test::TempFolder top;
  try {
    PartFile(top / "none", kPart, "id");
    FAIL("it was made");
  } catch (const Error& error) {
    CHECK(error.fault() == Fault::output);
    CHECK(std::string(error.what()).find(".tidelot-part-2-of-3") != std::string::npos);
  }
}

}  // namespace
}  // namespace tidelot::run
