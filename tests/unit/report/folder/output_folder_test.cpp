// SPDX-License-Identifier: Apache-2.0
#include "tidelot/report/output_folder.hpp"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <fstream>

#include "support/temp_folder.hpp"
#include "tidelot/core/error.hpp"

namespace tidelot {
namespace {

namespace fs = std::filesystem;

constexpr const char* kRun = "{\"program\": \"tidelot\"}";

void put(const fs::path& path, const std::string& text) {
  fs::create_directories(path.parent_path());
  std::ofstream(path, std::ios::binary) << text;
}

/// A finished run: a map, a table and run.json.
void run(const fs::path& folder, const std::string& mark) {
  OutputFolder out(folder);
  put(out.staged("maps/yield.tif"), mark);
  out.write("sites.csv", mark);
  out.write("run.json", kRun);
  out.commit();
}

std::size_t files_in(const fs::path& folder) {
  std::size_t files = 0;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    files += entry.is_directory() ? 0U : 1U;
  }
  return files;
}

bool refuses(const fs::path& folder, const std::string& words) {
  try {
    OutputFolder out(folder);
  } catch (const Error& error) {
    INFO(error.what());
    CHECK(error.fault() == Fault::output);
    CHECK(std::string(error.what()).find(folder.filename().string()) != std::string::npos);
    CHECK(std::string(error.what()).find(words) != std::string::npos);
    CHECK(std::string(error.what()).find('\n') == std::string::npos);
    return true;
  }
  return false;
}

TEST_CASE("commit leaves the files and nothing else", "[report]") {
  const test::TempFolder top;
  run(top / "a/b", "one");
  CHECK(test::bytes_of(top / "a/b/maps/yield.tif") == "one");
  CHECK(test::bytes_of(top / "a/b/sites.csv") == "one");
  CHECK(test::bytes_of(top / "a/b/run.json") == kRun);
  CHECK(files_in(top / "a/b") == 3);
}

TEST_CASE("without commit nothing is left, not even the folders", "[report]") {
  const test::TempFolder top;
  {
    OutputFolder out(top / "a/b");
    out.write("sites.csv", "x");
    CHECK(fs::exists(top / "a/b"));
  }
  CHECK(top.count() == 0);
}

TEST_CASE("a folder made by somebody else stays without commit", "[report]") {
  const test::TempFolder top;
  fs::create_directory(top / "mine");
  { OutputFolder out(top / "mine"); }
  CHECK(fs::is_empty(top / "mine"));
}

TEST_CASE("what stood there stays until commit", "[report]") {
  const test::TempFolder top;
  run(top / "out", "one");
  {
    OutputFolder out(top / "out");
    out.write("sites.csv", "two");
    out.write("run.json", kRun);
  }
  CHECK(test::bytes_of(top / "out/sites.csv") == "one");
  CHECK(files_in(top / "out") == 3);
}

TEST_CASE("a second run replaces the first; the user's own files are never touched", "[report]") {
  const test::TempFolder top;
  run(top / "out", "one");
  put(top / "out/notes.txt", "mine");
  put(top / "out/maps/sketch.tif", "mine");
  put(top / "out/maps/yield.tif.aux.xml", "old statistics");
  {
    OutputFolder out(top / "out");
    out.write("report.html", "two");
    out.write("run.json", kRun);
    out.commit();
  }
  CHECK(test::bytes_of(top / "out/report.html") == "two");
  CHECK_FALSE(fs::exists(top / "out/sites.csv"));
  CHECK_FALSE(fs::exists(top / "out/maps/yield.tif"));
  CHECK_FALSE(fs::exists(top / "out/maps/yield.tif.aux.xml"));
  CHECK(test::bytes_of(top / "out/notes.txt") == "mine");
  CHECK(test::bytes_of(top / "out/maps/sketch.tif") == "mine");
  CHECK(files_in(top / "out") == 4);
}

TEST_CASE("folders of somebody else are refused and left alone", "[report]") {
  const test::TempFolder top;
  put(top / "full/notes.txt", "mine");
  CHECK(refuses(top / "full", "not empty"));
  put(top / "other/run.json", "{\"program\": \"another\"}");
  CHECK(refuses(top / "other", "not empty"));
  put(top / "broken/run.json", "{\"program\": \"tidelot\"");
  CHECK(refuses(top / "broken", "not empty"));
  put(top / "list/run.json", "[\"program\", \"tidelot\"]");
  CHECK(refuses(top / "list", "not empty"));
  CHECK(files_in(top.path()) == 4);
}

TEST_CASE("maps that are a link elsewhere are refused, and what is there stays", "[report]") {
  const test::TempFolder top;
  put(top / "mine/yield.tif", "mine");
  put(top / "out/run.json", kRun);
  fs::create_directory_symlink(top / "mine", top / "out/maps");
  CHECK(refuses(top / "out", "maps: is a link to another folder"));
  CHECK(test::bytes_of(top / "mine/yield.tif") == "mine");
}

TEST_CASE("a file in the way is named", "[report]") {
  const test::TempFolder top;
  put(top / "file", "x");
  CHECK(refuses(top / "file", "not a folder"));
  CHECK_THROWS_AS(OutputFolder(top / "file/below"), Error);
  CHECK(test::bytes_of(top / "file") == "x");
}

TEST_CASE("the work folder of a dead run is swept", "[report]") {
  const test::TempFolder top;
  put(top / "out/.tidelot-work-999999/new/maps/yield.tif", "half");
  run(top / "out", "one");
  CHECK(files_in(top / "out") == 3);
  CHECK_FALSE(fs::exists(top / "out/.tidelot-work-999999"));
}

TEST_CASE("what a dead run left unfinished is taken when it is asked for", "[report]") {
  const test::TempFolder top;
  put(top / "out/.tidelot-work-999999/unfinished/tiles", "some");
  put(top / "out/.tidelot-work-999999/new/maps/yield.tif", "half");
  OutputFolder out(top / "out", Unfinished::take);
  CHECK(test::bytes_of(out.unfinished() / "tiles") == "some");
  CHECK_FALSE(fs::exists(top / "out/.tidelot-work-999999"));
}

TEST_CASE("a dead run of the same process number loses nothing", "[report]") {
  const test::TempFolder top;
  put(top / ("out/.tidelot-work-" + std::to_string(::getpid())) / "unfinished/tiles", "some");
  OutputFolder out(top / "out", Unfinished::take);
  CHECK(test::bytes_of(out.unfinished() / "tiles") == "some");
}

TEST_CASE("what is left unfinished stays without commit, and only that", "[report]") {
  const test::TempFolder top;
  {
    OutputFolder out(top / "out");
    out.write("sites.csv", "half");
    put(out.unfinished() / "tiles", "some");
    out.leave_unfinished();
  }
  CHECK(files_in(top / "out") == 2);  // the tiles and a lock that nobody holds
  OutputFolder again(top / "out", Unfinished::take);
  CHECK(test::bytes_of(again.unfinished() / "tiles") == "some");
  again.write("run.json", kRun);
  again.commit();
  CHECK(files_in(top / "out") == 1);
}

TEST_CASE("what is left unfinished goes with the next run that does not take it", "[report]") {
  const test::TempFolder top;
  put(top / "out/.tidelot-work-999999/unfinished/tiles", "some");
  OutputFolder out(top / "out");
  CHECK(fs::is_empty(out.unfinished()));
}

TEST_CASE("a run that begins while another begins gives way", "[report]") {
  const test::TempFolder top;
  OutputFolder first(top / "out");
  CHECK(refuses(top / "out", "another run"));
  CHECK(fs::exists(first.unfinished()));
}

TEST_CASE("a run that died while moving leaves no mixture behind", "[report]") {
  const test::TempFolder top;
  put(top / "out/maps/yield.tif", "new");
  put(top / "out/sites.csv", "old");
  put(top / "out/notes.txt", "mine");
  put(top / "out/.tidelot-work-999999/new/run.json", kRun);
  { OutputFolder out(top / "out"); }
  CHECK_FALSE(fs::exists(top / "out/maps/yield.tif"));
  CHECK_FALSE(fs::exists(top / "out/sites.csv"));
  CHECK(test::bytes_of(top / "out/notes.txt") == "mine");
}

TEST_CASE("a run that died while moving gives back the earlier results", "[report]") {
  const test::TempFolder top;
  const auto work = top / "out/.tidelot-work-999999";
  put(top / "out/notes.txt", "mine");
  put(work / "new/run.json", kRun);
  put(work / "old/run.json", kRun);
  SECTION("before all were set aside") {
    put(work / "new/maps/yield.tif", "new");
    put(work / "old/maps_yield.tif", "old");
    put(top / "out/sites.csv", "old");
  }
  SECTION("while the new ones were moved") {
    put(work / "all-aside/mark", "");
    put(work / "old/maps_yield.tif", "old");
    put(work / "old/sites.csv", "old");
    put(top / "out/maps/yield.tif", "new");
    put(top / "out/load.csv", "new");
  }
  { OutputFolder out(top / "out"); }
  CHECK(test::bytes_of(top / "out/maps/yield.tif") == "old");
  CHECK(test::bytes_of(top / "out/sites.csv") == "old");
  CHECK(test::bytes_of(top / "out/run.json") == kRun);
  CHECK(test::bytes_of(top / "out/notes.txt") == "mine");
  CHECK(files_in(top / "out") == 4);
}

TEST_CASE("two runs do not write to one folder", "[report]") {
  const test::TempFolder top;
  OutputFolder first(top / "out");
  first.write("run.json", kRun);
  CHECK(refuses(top / "out", "another run"));
  first.commit();
  CHECK(test::bytes_of(top / "out/run.json") == kRun);
}

TEST_CASE("a commit that fails puts the earlier run back", "[report]") {
  const test::TempFolder top;
  run(top / "out", "one");
  SECTION("a staged file is missing") {
    OutputFolder out(top / "out");
    out.write("sites.csv", "two");
    (void)out.staged("report.html");
    out.write("run.json", kRun);
    CHECK_THROWS_AS(out.commit(), Error);
  }
  SECTION("something stands where a file goes") {
    fs::create_directories(top / "out/extra.txt/inside");
    OutputFolder out(top / "out");
    out.write("sites.csv", "two");
    out.write("extra.txt", "two");
    out.write("run.json", kRun);
    CHECK_THROWS_AS(out.commit(), Error);
    fs::remove_all(top / "out/extra.txt");
  }
  CHECK(test::bytes_of(top / "out/sites.csv") == "one");
  CHECK(test::bytes_of(top / "out/maps/yield.tif") == "one");
  CHECK(test::bytes_of(top / "out/run.json") == kRun);
}

TEST_CASE("a failed commit in a fresh folder leaves nothing", "[report]") {
  const test::TempFolder top;
  {
    OutputFolder out(top / "out");
    put(out.staged("maps/yield.tif"), "one");
    out.write("run.json", kRun);
    fs::remove(out.staged("run.json"));
    CHECK_THROWS_AS(out.commit(), Error);
  }
  CHECK(top.count() == 0);
}

TEST_CASE("a name is written once", "[report]") {
  const test::TempFolder top;
  OutputFolder out(top / "out");
  out.write("sites.csv", "x");
  CHECK_THROWS_AS(out.write("sites.csv", "y"), Error);
}

}  // namespace
}  // namespace tidelot
