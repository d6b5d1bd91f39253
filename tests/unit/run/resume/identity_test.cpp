// SPDX-License-Identifier: Apache-2.0
#include "run/resume/identity.hpp"

#include <catch2/catch.hpp>
#include <fstream>

#include "support/temp_folder.hpp"

namespace tidelot::run {
namespace {

namespace fs = std::filesystem;

TEST_CASE("a run rests on each input and on what stands beside it", "[run]") {
  const test::TempFolder top;
  const auto put = [&](const char* name, const char* text) {
    std::ofstream(top.path() / name, std::ios::binary) << text;
  };
  put("a.shp", "shape");
  put("a.dbf", "table");
  put("b.tif", "raster");
  std::vector<FileRef> files(2);
  files[0].written = "a.shp";
  files[0].path = top.path() / "a.shp";
  files[1].written = "b.tif";
  files[1].path = top.path() / "b.tif";
  const Plan plan;
  const Identity first = identity_of(plan, files);
  REQUIRE(first.inputs.size() == 2);
  CHECK(first.inputs[0].first.written == "a.shp");
  CHECK(first.inputs[0].second.sha256 == sha256_of("shape"));
  CHECK(first.inputs[0].second.bytes == 5);
  CHECK(first.inputs[1].second.sha256 == sha256_of("raster"));
  put("a.dbf", "other");
  const Identity other = identity_of(plan, files);
  CHECK(other.sha256 != first.sha256);
  CHECK(other.inputs[0].second.sha256 == first.inputs[0].second.sha256);
}

}  // namespace
}  // namespace tidelot::run
