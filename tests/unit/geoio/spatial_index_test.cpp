// SPDX-License-Identifier: Apache-2.0
#include "geoio/spatial_index.hpp"

#include <catch2/catch.hpp>

#include "geoio/geoio.hpp"
#include "support/sample_sites.hpp"
#include "support/temp_folder.hpp"
#include "tidelot/report/map_writer.hpp"

using namespace tidelot;

namespace {

/// Are the indices of a file of two sites whole after this was done to one?
bool whole_after(const char* statement) {
  const test::TempFolder folder;
  const auto path = folder.path() / "sites.gpkg";
  geoio::start();
  const std::vector<Site> sites{test::full_site(), test::bare_site()};
  geoio::make_map_writer()->write_geopackage(path, sites, test::sample_plan());
  const geoio::DatasetHandle file(GDALDataset::Open(path.c_str(), GDAL_OF_VECTOR | GDAL_OF_UPDATE));
  REQUIRE(file != nullptr);
  if (statement != nullptr) {
    file->ReleaseResultSet(file->ExecuteSQL(statement, nullptr, nullptr));
  }
  return geoio::has_whole_indices(*file);
}

}  // namespace

TEST_CASE("the spatial indices of a written file are whole", "[geoio]") {
  CHECK(whole_after(nullptr));
}

TEST_CASE("a feature that a spatial index lacks or boxes wrongly is noticed", "[geoio]") {
  CHECK_FALSE(whole_after("DELETE FROM rtree_sites_geom WHERE id = 1"));
  CHECK_FALSE(whole_after("UPDATE rtree_sites_geom SET minx = 0, maxx = 1 WHERE id = 2"));
  CHECK_FALSE(whole_after("UPDATE rtree_sites_geom SET maxy = 90 WHERE id = 2"));
}
