// SPDX-License-Identifier: Apache-2.0
// The validators that come with GDAL's python package (Debian: python3-gdal): the Cloud Optimized
// GeoTIFF layout as its driver's page describes it, and the requirements of OGC 12-128r
// (GeoPackage). Every map that is written must pass without a warning. They must be installed: a
// missing module fails the test.
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <vector>

#include "geoio/geoio.hpp"
#include "support/sample_sites.hpp"
#include "support/tool.hpp"

using tidelot::Grid;
using tidelot::MapBand;
using tidelot::MapFile;
using tidelot::test::run_tool;
using tidelot::test::TempFolder;
using tidelot::test::ToolAnswer;

namespace {

/// Larger than 512 cells, below which the validator asks for no overviews.
Grid grid_of(int cols, int rows) { return {250000, 4540000, 10, cols, rows, "EPSG:32626"}; }

template <typename T>
std::vector<T> ramp(const Grid& grid) {
  std::vector<T> values(grid.size());
  for (std::size_t i = 0; i < values.size(); ++i) {
    values[i] = static_cast<T>(i % 251);
  }
  return values;
}

template <typename T>
ToolAnswer validate_map(const Grid& grid, int bands, double nodata) {
  tidelot::geoio::start();
  const TempFolder folder;
  const std::vector<T> values = ramp<T>(grid);
  MapFile map;
  map.nodata = nodata;
  map.metadata = {{"TITLE", "Heron Bight"}};
  map.categories = {"outside", "land"};
  for (int b = 0; b < bands; ++b) {
    map.bands.push_back(MapBand{"a band", "m", std::span<const T>(values)});
  }
  const auto path = folder / "a.tif";
  tidelot::geoio::make_map_writer()->write_map(path, grid, map);
  return run_tool(folder,
                  "/usr/bin/python3 -m osgeo_utils.samples.validate_cloud_optimized_geotiff "
                  "--full-check=yes '" +
                      path.string() + "'");
}

void check_valid_cog(const ToolAnswer& answer) {
  CAPTURE(answer.text);
  CHECK(answer.status == 0);
  CHECK(answer.text.find("is a valid cloud optimized GeoTIFF") != std::string::npos);
  CHECK(answer.text.find("arning") == std::string::npos);
}

ToolAnswer validate_sites(const std::vector<tidelot::Site>& sites) {
  tidelot::geoio::start();
  const TempFolder folder;
  const auto path = folder / "sites.gpkg";
  tidelot::geoio::make_map_writer()->write_geopackage(path, sites, tidelot::test::sample_plan());
  return run_tool(folder,
                  "/usr/bin/python3 -m osgeo_utils.samples.validate_gpkg '" + path.string() + "'");
}

}  // namespace

TEST_CASE("maps of every kind are valid Cloud Optimized GeoTIFFs") {
  check_valid_cog(validate_map<float>(grid_of(1500, 1200), 3, -9999));
  check_valid_cog(validate_map<std::uint32_t>(grid_of(1300, 600), 1, 4294967295.0));
  check_valid_cog(validate_map<std::uint8_t>(grid_of(600, 1300), 1, 0));
}

TEST_CASE("a map smaller than a tile is a valid Cloud Optimized GeoTIFF") {
  check_valid_cog(validate_map<float>(grid_of(40, 30), 1, -9999));
  check_valid_cog(validate_map<float>(grid_of(1, 1), 1, -9999));
}

TEST_CASE("the validator does find fault with a GeoTIFF that is none") {
  const TempFolder folder;
  const ToolAnswer answer = run_tool(
      folder, "cd '" + folder.path().string() +
                  "' && /usr/bin/python3 -c 'from osgeo import gdal; "
                  "gdal.GetDriverByName(\"GTiff\").Create(\"a.tif\", 1500, 1200)' && "
                  "/usr/bin/python3 -m osgeo_utils.samples.validate_cloud_optimized_geotiff a.tif");
  CAPTURE(answer.text);
  CHECK(answer.text.find("is NOT a valid cloud optimized GeoTIFF") != std::string::npos);
}

TEST_CASE("the sites are a valid GeoPackage, with sites and without") {
  for (const auto& sites :
       {std::vector<tidelot::Site>{},
        std::vector<tidelot::Site>{tidelot::test::full_site(), tidelot::test::bare_site()}}) {
    const ToolAnswer answer = validate_sites(sites);
    CAPTURE(answer.text, sites.size());
    CHECK(answer.status == 0);
    CHECK(answer.text.empty());
  }
}
