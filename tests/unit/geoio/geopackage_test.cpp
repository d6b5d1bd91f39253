// SPDX-License-Identifier: Apache-2.0
#include <cpl_conv.h>
#include <ogrsf_frmts.h>

#include <catch2/catch.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "geoio/geoio.hpp"
#include "support/sample_sites.hpp"
#include "support/temp_folder.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/report/map_writer.hpp"
#include "tidelot/report/report.hpp"

using tidelot::Error;
using tidelot::Fault;
using tidelot::Site;
using tidelot::test::apart_site;
using tidelot::test::bare_site;
using tidelot::test::bytes_of;
using tidelot::test::full_site;
using tidelot::test::sample_plan;
using tidelot::test::TempFolder;

namespace {

void write(const std::filesystem::path& path, const std::vector<Site>& sites) {
  tidelot::geoio::start();
  tidelot::geoio::make_map_writer()->write_geopackage(path, sites, sample_plan());
}

/// The layer `sites` of a file, with the file.
struct Opened {
  GDALDatasetUniquePtr file;
  OGRLayer* layer = nullptr;
  explicit Opened(const std::filesystem::path& path)
      : file(GDALDataset::Open(path.c_str(), GDAL_OF_VECTOR)) {
    REQUIRE(file != nullptr);
    layer = file->GetLayerByName("sites");
    REQUIRE(layer != nullptr);
  }
};

/// The cells of a line of CSV; none of the sample sites needs quotes.
std::vector<std::string> split(const std::string& line) {
  std::vector<std::string> cells{""};
  for (const char c : line) {
    if (c == ',') {
      cells.emplace_back();
    } else {
      cells.back() += c;
    }
  }
  return cells;
}

std::vector<std::vector<std::string>> csv_of(const std::vector<Site>& sites) {
  std::istringstream lines(tidelot::sites_csv(sites, sample_plan()));
  std::vector<std::vector<std::string>> rows;
  for (std::string line; std::getline(lines, line);) {
    rows.push_back(split(line));
  }
  return rows;
}

/// Is the field what the cell of sites.csv says?
bool agrees(const OGRFeature& site, int field, const std::string& cell) {
  if (cell.empty()) {
    return site.IsFieldNull(field);
  }
  return site.GetFieldDefnRef(field)->GetType() == OFTString
             ? cell == site.GetFieldAsString(field)
             : CPLAtof(cell.c_str()) == site.GetFieldAsDouble(field);
}

}  // namespace

TEST_CASE("the fields are the columns of sites.csv, and every figure is the one printed there") {
  const std::vector<Site> sites{full_site(), bare_site(), apart_site()};
  const auto rows = csv_of(sites);
  REQUIRE(rows.size() == 4);
  const TempFolder folder;
  write(folder / "a.gpkg", sites);
  const Opened opened(folder / "a.gpkg");
  OGRFeatureDefn& definition = *opened.layer->GetLayerDefn();
  REQUIRE(definition.GetFieldCount() == static_cast<int>(rows[0].size()));
  for (std::size_t row = 1; row < rows.size(); ++row) {
    const OGRFeatureUniquePtr site(opened.layer->GetNextFeature());
    REQUIRE(site != nullptr);
    for (int field = 0; field < definition.GetFieldCount(); ++field) {
      const std::string name = definition.GetFieldDefn(field)->GetNameRef();
      const std::string& cell = rows[row].at(static_cast<std::size_t>(field));
      CAPTURE(row, name, cell);
      CHECK(name == rows[0][static_cast<std::size_t>(field)]);
      CHECK(agrees(*site, field, cell));
    }
  }
}

TEST_CASE("a caution is not the nearest closed area, and a site apart has no rank") {
  const TempFolder folder;
  write(folder / "a.gpkg", {full_site(), apart_site()});
  const Opened opened(folder / "a.gpkg");
  const OGRFeatureUniquePtr full(opened.layer->GetNextFeature());
  const OGRFeatureUniquePtr apart(opened.layer->GetNextFeature());
  REQUIRE((full != nullptr && apart != nullptr));
  CHECK(std::string(full->GetFieldAsString("nearest_closed")) == "eelgrass beds");
  CHECK(full->GetFieldAsDouble("nearest_closed_m") == Approx(41.25).margin(0.051));
  CHECK(apart->IsFieldNull(apart->GetFieldIndex("rank")));
  CHECK(apart->IsFieldNull(apart->GetFieldIndex("depth_min_m")));
}

TEST_CASE("numbers are numbers and texts are texts") {
  const TempFolder folder;
  write(folder / "a.gpkg", {full_site()});
  const Opened opened(folder / "a.gpkg");
  const OGRFeatureUniquePtr site(opened.layer->GetNextFeature());
  REQUIRE(site != nullptr);
  CHECK(site->GetFieldAsInteger("rank") == 1);
  CHECK(site->GetFieldAsDouble("suitability") == 0.8125);
  CHECK(site->GetFieldAsDouble("line_m") == 1234.5);
  CHECK(site->GetFieldAsInteger64("bundles") == 8230);
  CHECK(site->GetFieldAsDouble("landing_km") == 2.5);
  CHECK(std::string(site->GetFieldAsString("outplant")) == "05-15");
  CHECK(std::string(site->GetFieldAsString("last_haul")) == "10-15");
  CHECK(std::string(site->GetFieldAsString("cautions")) == "mooring field near; rule not known");
  CHECK(std::string(site->GetFieldAsString("corners")) ==
        "-30.051000 41.030500;-30.049000 41.030400;-30.049100 41.029500;-30.051100 41.029600");
  OGRFeatureDefn* definition = opened.layer->GetLayerDefn();
  CHECK(definition->GetFieldDefn(definition->GetFieldIndex("yield_t_p10"))->GetType() == OFTReal);
  CHECK(definition->GetFieldDefn(definition->GetFieldIndex("rank"))->GetType() == OFTInteger64);
}

TEST_CASE("what there is not is NULL, not 0 and not an empty text") {
  const TempFolder folder;
  write(folder / "a.gpkg", {bare_site()});
  const Opened opened(folder / "a.gpkg");
  const OGRFeatureUniquePtr site(opened.layer->GetNextFeature());
  REQUIRE(site != nullptr);
  for (const char* name :
       {"yield_t_p10", "yield_t_p90", "nitrogen_kg_p10", "nitrogen_kg_p90", "outplant", "last_haul",
        "landing_km", "nearest_closed", "nearest_closed_m", "cautions", "limited_by"}) {
    CAPTURE(name);
    CHECK(site->IsFieldNull(site->GetFieldIndex(name)));
  }
  CHECK(site->GetFieldAsDouble("yield_t") == -0.125);
  CHECK(site->GetFieldAsInteger("harvests") == 0);
}

TEST_CASE("a site is its polygon in WGS 84, longitude first, counter-clockwise") {
  const TempFolder folder;
  write(folder / "a.gpkg", {full_site()});
  const Opened opened(folder / "a.gpkg");
  CHECK(std::string(opened.layer->GetSpatialRef()->GetAuthorityCode(nullptr)) == "4326");
  const OGRFeatureUniquePtr site(opened.layer->GetNextFeature());
  REQUIRE(site != nullptr);
  REQUIRE(wkbFlatten(site->GetGeometryRef()->getGeometryType()) == wkbPolygon);
  const OGRLinearRing& ring = *site->GetGeometryRef()->toPolygon()->getExteriorRing();
  CHECK(ring.getNumPoints() == 5);
  CHECK(ring.getX(0) == -30.051);
  CHECK(ring.getY(0) == 41.0305);
  CHECK(ring.getX(4) == ring.getX(0));
  CHECK_FALSE(ring.isClockwise());
}

TEST_CASE("sites keep their order") {
  const TempFolder folder;
  write(folder / "a.gpkg", {full_site(), bare_site()});
  const Opened opened(folder / "a.gpkg");
  CHECK(opened.layer->GetFeatureCount() == 2);
  CHECK(
      std::string(OGRFeatureUniquePtr(opened.layer->GetNextFeature())->GetFieldAsString("name")) ==
      "S01");
  CHECK(
      std::string(OGRFeatureUniquePtr(opened.layer->GetNextFeature())->GetFieldAsString("name")) ==
      "S02");
}

TEST_CASE("no site is an answer: the layer is there, and empty") {
  const TempFolder folder;
  write(folder / "a.gpkg", {});
  const Opened opened(folder / "a.gpkg");
  CHECK(opened.layer->GetFeatureCount() == 0);
  CHECK(opened.layer->GetLayerDefn()->GetFieldCount() >= 25);
}

TEST_CASE("two runs give the same bytes, and one file each") {
  const TempFolder folder;
  write(folder / "a.gpkg", {full_site(), bare_site()});
  write(folder / "b.gpkg", {full_site(), bare_site()});
  CHECK(bytes_of(folder / "a.gpkg") == bytes_of(folder / "b.gpkg"));
  CHECK(bytes_of(folder / "a.gpkg").find("2000-01-01T00:00:00") != std::string::npos);
  CHECK(folder.count() == 2);
}

TEST_CASE("a GeoPackage that cannot be written is an error that names it") {
  const TempFolder folder;
  try {
    write(folder / "none" / "a.gpkg", {full_site()});
    FAIL("it was written");
  } catch (const Error& error) {
    CHECK(error.fault() == Fault::output);
    CHECK(std::string(error.what()).find("none/a.gpkg") != std::string::npos);
  }
  CHECK(folder.count() == 0);
}

TEST_CASE("a GeoPackage is never updated in place") {
  const TempFolder folder;
  write(folder / "a.gpkg", {full_site()});
  const std::string before = bytes_of(folder / "a.gpkg");
  CHECK_THROWS_AS(write(folder / "a.gpkg", {full_site(), bare_site()}), Error);
  CHECK(bytes_of(folder / "a.gpkg") == before);
}
