// SPDX-License-Identifier: Apache-2.0
#include "tidelot/plan/file_place.hpp"

#include <catch2/catch.hpp>

#include "support/temp_folder.hpp"

namespace tidelot {
namespace {

namespace fs = std::filesystem;

TEST_CASE("A path lies in a folder by its words") {
  for (const char* path : {"/a/b", "/a/b/", "/a/b/c.tif", "/a/b/./c", "/a/b/x/../c", "/a/b/..c",
                           "/a/../a/b/c", "/a/b/x/y/../../c"}) {
    INFO(path);
    CHECK(lies_in(path, "/a/b"));
    CHECK(lies_in(path, "/a/x/../b/"));
  }
  for (const char* path : {"/a", "/a/bc", "/a/b/..", "/a/b/../c", "/a/b/x/../../../b", "/", "b",
                           "/c/a/b/d", "/a/b/c/../../../a/bb"}) {
    INFO(path);
    CHECK_FALSE(lies_in(path, "/a/b"));
  }
}

TEST_CASE("A file that may lie anywhere has no fault, another one has where it leaves its folder") {
  const test::TempFolder top;
  fs::create_directory(top.path() / "bay");
  fs::create_directory_symlink(top.path() / "bay", top.path() / "door");
  const fs::path inside = fs::canonical(top.path()) / "bay" / "a.tif";
  const fs::path outside = fs::canonical(top.path()) / "a.tif";
  FileRef file;
  CHECK(outside_fault(file, outside).empty());
  for (const char* folder : {"bay", "door"}) {
    file.within = top.path() / folder;
    CHECK(outside_fault(file, inside).empty());
    CHECK(outside_fault(file, outside).find("allow = [\"outside\"]") != std::string::npos);
  }
  file.within = top.path() / "none";
  CHECK_FALSE(outside_fault(file, inside).empty());
}

TEST_CASE("A link is followed before it is asked whether the file leaves its folder") {
  const test::TempFolder top;
  fs::create_directory(top.path() / "bay");
  std::ofstream(top.path() / "a.tif") << "x";
  fs::create_symlink(top.path() / "a.tif", top.path() / "bay" / "a.tif");
  FileRef file;
  CHECK(link_fault(file, top.path() / "bay" / "a.tif").empty());
  file.within = top.path() / "bay";
  CHECK_FALSE(link_fault(file, top.path() / "bay" / "a.tif").empty());
  CHECK(link_fault(file, top.path() / "bay" / "none.tif").empty());  // not there
  file.within = top.path();
  CHECK(link_fault(file, top.path() / "bay" / "a.tif").empty());
}

}  // namespace
}  // namespace tidelot
