// SPDX-License-Identifier: Apache-2.0
#include "report/folder/set_aside.hpp"

#include <catch2/catch.hpp>
#include <fstream>

#include "support/temp_folder.hpp"

namespace tidelot {
namespace {

namespace fs = std::filesystem;

TEST_CASE("moves that cannot be undone tell of earlier results only where there were any",
          "[report]") {
  const test::TempFolder top;
  const fs::path work = top.path() / ".work";
  fs::create_directories(work / "old");
  const std::string none = left_behind(top.path(), work);
  CHECK_THAT(none, Catch::Contains("is not whole") && !Catch::Contains("earlier results"));
  std::ofstream(work / "old" / "run.json") << "{}";
  CHECK_THAT(left_behind(top.path(), work),
             Catch::Contains("the earlier results lie in " + work.string()));
}

}  // namespace
}  // namespace tidelot
