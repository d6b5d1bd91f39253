// SPDX-License-Identifier: Apache-2.0
#include "plan/plan_file.hpp"

#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <string>

#include "support/source_folder.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/plan/plan.hpp"
#include "unit/plan/plan_text.hpp"

using namespace tidelot;
namespace fs = std::filesystem;

namespace {

/// A folder of the test's own that is gone at its end.
class Folder {
 public:
  Folder() : path_(fs::temp_directory_path() / ("plan_file_" + std::to_string(::getpid()))) {
    fs::remove_all(path_);
    fs::create_directories(path_);
  }
  ~Folder() { fs::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  fs::path write(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name, std::ios::binary) << text;
    return path_ / name;
  }
  [[nodiscard]] const fs::path& path() const { return path_; }

 private:
  fs::path path_;
};

void check_refused(const fs::path& path, const std::string& said, Fault fault = Fault::plan) {
  INFO(path);
  try {
    static_cast<void>(read_plan(path));
    FAIL_CHECK("passed, but should say: " << said);
  } catch (const Error& error) {
    const std::string what = error.what();
    CHECK(error.fault() == fault);
    CHECK_THAT(what, Catch::Contains(said));
    CHECK(what.find('\n') == std::string::npos);
  }
}

}  // namespace

TEST_CASE("A plan is read from its file, and named in messages as it was given") {
  const Folder folder;
  const Plan plan = read_plan(folder.write("plan.toml", testing::kSmallest));
  CHECK(plan.title == "Heron Bight");
  CHECK(plan.depth.file.path == folder.path() / "depth.tif");
  const fs::path bad = folder.write("bad.toml", testing::with("cell_m", "cell"));
  check_refused(bad, bad.string() + ":4:1: unknown key 'area.cell'");
}

TEST_CASE("A relative plan has absolute paths in it") {
  const Plan plan = parse_plan(testing::kSmallest, "plan.toml");
  CHECK(plan.depth.file.path == fs::current_path() / "depth.tif");
  CHECK(plan.path.is_absolute());
}

TEST_CASE("What is no plain file is refused before it is opened") {
  const Folder folder;
  check_refused(folder.path() / "none.toml", "none.toml: no such file");
  check_refused(folder.path(), "is a folder");
  check_refused("", "no such file");
  const fs::path pipe = folder.path() / "pipe.toml";
  REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
  check_refused(pipe, "is not a plain file");
  check_refused("/dev/null", "is not a plain file");
  fs::create_symlink("loop.toml", folder.path() / "loop.toml");
  check_refused(folder.path() / "loop.toml", "check the path");
  check_refused(folder.path() / std::string(5000, 'a'), "check the path");
}

TEST_CASE("A file that may not be read is refused") {
  const Folder folder;
  const fs::path path = folder.write("secret.toml", testing::kSmallest);
  fs::permissions(path, fs::perms::none);
  if (::access(path.c_str(), R_OK) == 0) {
    return;  // root reads everything
  }
  check_refused(path, "can't be opened");
}

TEST_CASE("A file over 1 MB is refused, one of 1 MB is read") {
  const Folder folder;
  std::string full = testing::kSmallest;
  while (full.size() < planfile::kMaxBytes) {
    full += "# a comment\n";
  }
  full.resize(planfile::kMaxBytes);
  CHECK(read_plan(folder.write("full.toml", full)).title == "Heron Bight");
  check_refused(folder.write("over.toml", full + "x"), "is over 1 MB");
}

TEST_CASE("A line that nests without end is refused before it is read") {
  std::string key = "a";
  for (int i = 0; i < 400'000; ++i) {
    key += ".a";
  }
  const Folder folder;
  check_refused(folder.write("deep.toml", "title = \"x\"\n" + key + " = 1\n"),
                "deep.toml:2:1: the line is over 8000 bytes long");
  check_refused(folder.write("table.toml", "[" + key + "]\n"), "table.toml:1:1: the line is");
  const std::string most = "# " + std::string(planfile::kMaxLineBytes - 3, 'x') + "\n";
  CHECK_NOTHROW(parse_plan(testing::kSmallest + most, "p.toml"));
  CHECK_THROWS_AS(parse_plan(testing::kSmallest + "#" + most, "p.toml"), Error);
}

TEST_CASE("An empty file and one that is not text are refused with a place") {
  const Folder folder;
  check_refused(folder.write("empty.toml", ""), "empty.toml:1:1: ");
  check_refused(folder.write("zip.toml", std::string("PK\x03\x04\0\0", 6)), "zip.toml:1:");
  check_refused(folder.write("latin.toml", "title = \"x\"\n# caf\xE9\n"),
                "latin.toml:2:1: not UTF-8");
}

TEST_CASE("A name with a line break does not break the line of a message") {
  const Folder folder;
  check_refused(folder.path() / "a\nb.toml", "a?b.toml: no such file");
  check_refused(folder.write("c\nd.toml", "x = 1\n"), "c?d.toml:1:1: unknown key 'x'");
}

TEST_CASE("A crop profile may be a file beside the plan") {
  const Folder folder;
  const std::string from_file = testing::with("\"warm-red-alga\"", "\"my.toml\"");
  const fs::path plan = folder.write("plan.toml", from_file);
  check_refused(plan, "crop.profile: my.toml: no such file", Fault::input);
  folder.write("my.toml", "name = 3\n");
  check_refused(plan, "my.toml:1:");
  std::ifstream built_in(test::source_folder() / "src/plan/profiles/warm-red-alga.toml");
  std::string text(std::istreambuf_iterator<char>(built_in), {});
  text.replace(text.find("\"warm-red-alga\""), 15, "\"our-strain\"");
  folder.write("my.toml", text);
  CHECK(read_plan(plan).crop.name == "our-strain");
  fs::create_directory(folder.path() / "crops");
  folder.write("crops/my", text);
  CHECK(read_plan(folder.write("plan.toml", testing::with("\"warm-red-alga\"", "\"crops/my\"")))
            .crop.name == "our-strain");
}

TEST_CASE("A file of labels that cannot be read is refused at the key that names it") {
  const Folder folder;
  const fs::path plan = folder.write(
      "plan.toml", std::string(testing::kSmallest) + "[report]\nlabels = \"words.toml\"\n");
  const auto lines = std::count(testing::kSmallest.begin(), testing::kSmallest.end(), '\n');
  const std::string key = fmt::format("plan.toml:{}:10: report.labels = \"words.toml\"", lines + 2);
  check_refused(plan, key + ": no such file; check the name");
  folder.write("words.toml", std::string(planfile::kMaxBytes + 1, '\n'));
  check_refused(plan, key + ": is over 1 MB");
  folder.write("words.toml", "[map]\ntitle = 3\n");
  check_refused(plan, "words.toml:2:9: ");
}

TEST_CASE("Names of plain files are told from networks, archives and drivers") {
  for (const char* name : {"a.tif", "../a.tif", "/charts/a.tif", "a b.tif", "./a:b.tif", "x/a:b",
                           "vsi.tif", "data/vsizip.tif", "kd_{month}.tif", "\xC3\xA9.tif"}) {
    INFO(name);
    CHECK(planfile::plain_file_fault(name).empty());
  }
  for (const char* name : {"", "/vsimem/x", "/vsicurl/http", "http://x", "a/b://c", "NETCDF:a.nc:z",
                           "C:\\a.tif", "PG:host=x", ":a", "GTIFF_DIR:1:a/b.tif"}) {
    INFO(name);
    CHECK_FALSE(planfile::plain_file_fault(name).empty());
  }
}

TEST_CASE("A crop profile is held to the same limits as a plan") {
  const Folder folder;
  const fs::path plan =
      folder.write("plan.toml", testing::with("\"warm-red-alga\"", "\"my.toml\""));
  folder.write("my.toml", "name = \"caf\xE9\"\n");
  check_refused(plan, "my.toml:1:1: not UTF-8");
  folder.write("my.toml", "name = \"" + std::string(planfile::kMaxLineBytes, 'x') + "\"\n");
  check_refused(plan, "my.toml:1:1: the line is over 8000 bytes");
  folder.write("my.toml", std::string(planfile::kMaxBytes + 1, '\n'));
  check_refused(plan, "is over 1 MB", Fault::input);
}
