// SPDX-License-Identifier: Apache-2.0
#include "geoio/disk_file.hpp"

#include <cpl_vsi.h>

#include <catch2/catch.hpp>
#include <string>

#include "support/temp_folder.hpp"
#include "tidelot/core/error.hpp"

using tidelot::Error;
using tidelot::geoio::DiskFile;
using tidelot::test::bytes_of;
using tidelot::test::TempFolder;

namespace {

VSILFILE* opened(const DiskFile& file, const char* access) {
  return VSIFOpenL(file.name().c_str(), access);
}

void write(const DiskFile& file, const std::string& text) {
  VSILFILE* out = opened(file, "wb+");
  REQUIRE(out != nullptr);
  CHECK(VSIFWriteL(text.data(), 1, text.size(), out) == text.size());
  CHECK(VSIFSeekL(out, 1, SEEK_SET) == 0);
  CHECK(VSIFWriteL("u", 1, 1, out) == 1);
  CHECK(VSIFTellL(out) == 2);
  CHECK(VSIFCloseL(out) == 0);
}

}  // namespace

TEST_CASE("GDAL writes, reads and measures a new file by its name", "[geoio]") {
  const TempFolder folder;
  DiskFile file(folder / "a.tif");
  VSIStatBufL status;
  CHECK(opened(file, "rb") == nullptr);
  CHECK(VSIStatL(file.name().c_str(), &status) != 0);
  write(file, "kelp");
  CHECK(VSIStatL(file.name().c_str(), &status) == 0);
  CHECK(status.st_size == 4);
  VSILFILE* in = opened(file, "rb");
  std::string text(8, '-');
  CHECK(VSIFReadL(text.data(), 1, text.size(), in) == 4);
  CHECK(VSIFEofL(in) != 0);
  CHECK(text == "kulp----");
  CHECK(VSIFCloseL(in) == 0);
  file.finish();
  file.keep();
  CHECK(bytes_of(folder / "a.tif") == "kulp");
}

TEST_CASE("a new file goes away unless it is kept, and never replaces another", "[geoio]") {
  const TempFolder folder;
  { write(DiskFile(folder / "a.tif"), "kelp"); }
  CHECK_FALSE(std::filesystem::exists(folder / "a.tif"));
  DiskFile first(folder / "a.tif");
  CHECK_THROWS_AS(DiskFile(folder / "a.tif"), Error);
  CHECK(std::filesystem::exists(folder / "a.tif"));
  CHECK_THROWS_AS(DiskFile(folder / "none" / "a.tif"), Error);
}

TEST_CASE("a write that failed is told however GDAL took it", "[geoio]") {
  const TempFolder folder;
  DiskFile file(folder / "a.tif");
  write(file, "kelp");
  CHECK(file.write("x", 1, -1) == 0);  // no system writes there
  try {
    file.finish();
    FAIL("it was finished");
  } catch (const Error& error) {
    CHECK(std::string(error.what()).find("a.tif: cannot write: ") != std::string::npos);
  }
}
