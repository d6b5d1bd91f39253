// SPDX-License-Identifier: Apache-2.0
// Maps read back by rasterio and summed by numpy (Debian: python3-rasterio), which know the cells
// from a rule of their own in rasterio_readback.py. They must be installed: a missing module fails
// the test.
#include <catch2/catch.hpp>
#include <cstdint>
#include <limits>
#include <vector>

#include "geoio/geoio.hpp"
#include "support/source_folder.hpp"
#include "support/tool.hpp"

using tidelot::Grid;
using tidelot::MapBand;
using tidelot::MapFile;
using tidelot::test::run_tool;
using tidelot::test::TempFolder;

namespace {

const Grid kGrid{250000, 4540000, 10, 700, 600, "EPSG:32626"};

template <typename T, typename Rule>
std::vector<T> cells(Rule rule) {
  std::vector<T> values;
  for (std::uint64_t i = 0; i < kGrid.size(); ++i) {
    values.push_back(rule(i));
  }
  return values;
}

template <typename T>
void check_map(const std::vector<T>& values, double nodata, const std::string& kind) {
  tidelot::geoio::start();
  const TempFolder folder;
  const auto path = folder / "a.tif";
  MapFile map;
  map.nodata = nodata;
  map.metadata = {{"TITLE", "Heron Bight"}};
  map.bands = {MapBand{"a band", "kg/m", std::span<const T>(values)}};
  tidelot::geoio::make_map_writer()->write_map(path, kGrid, map);
  const auto script = tidelot::test::source_folder() / "tests/published/rasterio_readback.py";
  const auto answer = run_tool(
      folder, "/usr/bin/python3 '" + script.string() + "' '" + path.string() + "' " + kind);
  CAPTURE(answer.text);
  CHECK(answer.status == 0);
}

}  // namespace

TEST_CASE("rasterio reads a float map with its unknown cells as nodata") {
  check_map(cells<float>([](std::uint64_t i) {
              return i % 7 == 0 ? std::numeric_limits<float>::quiet_NaN()
                                : static_cast<float>(i % 1000) * 0.25F;
            }),
            -9999.0, "float");
}

TEST_CASE("rasterio reads all 32 bits of a bit map") {
  check_map(cells<std::uint32_t>(
                [](std::uint64_t i) { return static_cast<std::uint32_t>(i * 2654435761U); }),
            4294967295.0, "bits");
}

TEST_CASE("rasterio reads a map of codes") {
  check_map(cells<std::uint8_t>([](std::uint64_t i) { return static_cast<std::uint8_t>(i % 256); }),
            0.0, "codes");
}
