// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>

#include "fixtures.hpp"

using namespace tidelot;
using namespace tidelot::fixtures;
using Catch::Contains;

namespace {

constexpr LonLatBox kBay{-30.2, 40.9, -29.9, 41.1};
const std::string kUtm = "EPSG:32625";

FeatureLayer read(const FileRef& file, const std::string& where = "", const std::string& crs = kUtm,
                  const LonLatBox& box = kBay) {
  return geoio::make_opener()->read_features(file, where, "closed[0]", crs, box);
}

std::string refusal(const FileRef& file, const std::string& where = "") {
  return failure([&] { (void)read(file, where); });
}

std::string collection(const std::string& features) {
  return "{\"type\":\"FeatureCollection\",\"features\":[" + features + "]}";
}

std::string feature(const std::string& geometry, const std::string& name = "a",
                    const std::string& status = "mapped") {
  return "{\"type\":\"Feature\",\"properties\":{\"name\":\"" + name + "\",\"status\":\"" + status +
         "\"},\"geometry\":" + geometry + "}";
}

const std::string kSquare =
    R"({"type":"Polygon","coordinates":[[[-30.1,41],[-30.0,41],[-30.0,41.05],[-30.1,41.05],[-30.1,41]]]})";
const std::string kBowTie =
    R"({"type":"Polygon","coordinates":[[[-30.1,41],[-30.0,41.05],[-30.0,41],[-30.1,41.05],[-30.1,41]]]})";

double area(const Path& ring) {
  double twice = 0.0;
  for (std::size_t i = 1; i < ring.size(); ++i) {
    twice += (ring[i - 1].x - ring[0].x) * (ring[i].y - ring[0].y) -
             (ring[i].x - ring[0].x) * (ring[i - 1].y - ring[0].y);
  }
  return std::abs(twice) / 2.0;
}

/// A GeoPackage with one layer a given name, each with one square.
void write_geopackage(const std::string& path, const std::vector<std::string>& layers,
                      int code = 4326) {
  GDALDriver* const driver = GetGDALDriverManager()->GetDriverByName("GPKG");
  GDALDatasetUniquePtr dataset(driver->Create(path.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
  REQUIRE(dataset != nullptr);
  OGRSpatialReference reference = epsg(code == 0 ? 4326 : code);
  for (const std::string& name : layers) {
    OGRLayer* layer =
        dataset->CreateLayer(name.c_str(), code == 0 ? nullptr : &reference, wkbUnknown, nullptr);
    REQUIRE(layer != nullptr);
    OGRFieldDefn field("OBJNAM", OFTString);
    REQUIRE(layer->CreateField(&field) == OGRERR_NONE);
    OGRFeatureUniquePtr one(OGRFeature::CreateFeature(layer->GetLayerDefn()));
    one->SetField(0, name.c_str());
    OGRGeometry* geometry = nullptr;
    OGRGeometryFactory::createFromWkt(
        "POLYGON((-30.1 41,-30.0 41,-30.0 41.05,-30.1 41.05,-30.1 41))", nullptr, &geometry);
    one->SetGeometryDirectly(geometry);
    REQUIRE(layer->CreateFeature(one.get()) == OGRERR_NONE);
  }
}

}  // namespace

TEST_CASE("polygons, lines and points come in the grid's system, with their names") {
  const Folder folder;
  folder.write("a.geojson",
               collection(feature(kSquare, "beds") + "," +
                          feature(R"({"type":"LineString","coordinates":[[-30.1,41],[-30,41]]})") +
                          "," + feature(R"({"type":"Point","coordinates":[-30.05,41.02,7]})")));
  const FeatureLayer layer = read(folder.file("a.geojson"));
  REQUIRE(layer.features.size() == 3);
  CHECK(layer.format == "GeoJSON");
  CHECK(layer.crs_name == "WGS 84 (EPSG:4326)");
  CHECK(layer.features[0].label == "beds");
  CHECK(layer.features[0].shape.polygons.size() == 1);
  CHECK(layer.features[1].shape.lines.size() == 1);
  REQUIRE(layer.features[2].shape.points.size() == 1);
  XY back = layer.features[2].shape.points[0];
  geoio::make_opener()->projector(kUtm, "EPSG:4326", "x")->forward({&back, 1});
  CHECK(back.x == Approx(-30.05).epsilon(1e-10));
  CHECK(back.y == Approx(41.02).epsilon(1e-10));
  CHECK(layer.warnings.empty());
  CHECK(layer.repaired == 0);
}

TEST_CASE("long edges are densified until they stray less than 0.05 m") {
  const Folder folder;
  folder.write("a.geojson", collection(feature(kSquare)));
  const FeatureLayer layer = read(folder.file("a.geojson"));
  const Path& ring = layer.features.at(0).shape.polygons.at(0).outer;
  CHECK(ring.size() > 12);
  CHECK(ring.front() == ring.back());
  const auto projector = geoio::make_opener()->projector("EPSG:4326", kUtm, "x");
  double worst = 0.0;
  for (int i = 0; i <= 1000; ++i) {
    XY p{-30.1 + 0.1 * i / 1000.0, 41.05};
    projector->forward({&p, 1});
    double nearest = 1e9;
    for (std::size_t k = 1; k < ring.size(); ++k) {
      nearest = std::min(nearest, distance_to_segment(p, ring[k - 1], ring[k]));
    }
    worst = std::max(worst, nearest);
  }
  CHECK(worst < 0.05);
  XY a{-30.1, 41.05};
  XY b{-30.0, 41.05};
  XY m{-30.05, 41.05};
  for (XY* p : {&a, &b, &m}) {
    projector->forward({p, 1});
  }
  CHECK(distance_to_segment(m, a, b) > 1.0);  // what a straight edge would have missed
}

TEST_CASE("a bow tie is repaired, counted and named") {
  const Folder folder;
  folder.write("a.geojson", collection(feature(kSquare) + "," + feature(kBowTie)));
  const FeatureLayer layer = read(folder.file("a.geojson"));
  REQUIRE(layer.features.size() == 2);
  CHECK(layer.repaired == 1);
  REQUIRE(layer.warnings.size() == 1);
  CHECK_THAT(layer.warnings[0], Contains("closed[0]") && Contains("feature 1"));
  const auto& parts = layer.features[1].shape.polygons;
  REQUIRE(parts.size() == 2);
  const double square = area(layer.features[0].shape.polygons[0].outer);
  CHECK(area(parts[0].outer) + area(parts[1].outer) == Approx(square / 2).epsilon(1e-3));
}

TEST_CASE("empty geometries are left out with a warning, collections are taken apart") {
  const Folder folder;
  folder.write(
      "a.geojson",
      collection(feature("null") + "," +
                 feature(R"({"type":"GeometryCollection","geometries":[)" + kSquare +
                         R"(,{"type":"MultiPoint","coordinates":[[-30.05,41],[-30.06,41]]}]})")));
  const FeatureLayer layer = read(folder.file("a.geojson"));
  REQUIRE(layer.features.size() == 1);
  CHECK(layer.features[0].shape.polygons.size() == 1);
  CHECK(layer.features[0].shape.points.size() == 2);
  REQUIRE(layer.warnings.size() == 1);
  CHECK_THAT(layer.warnings[0], Contains("without a geometry"));
}

TEST_CASE("a GeoPackage's rows without a geometry are counted too") {
  const Folder folder;
  write_geopackage(folder / "a.gpkg", {"beds"});
  {
    GDALDatasetUniquePtr d(GDALDataset::Open((folder / "a.gpkg").c_str(), GDAL_OF_UPDATE));
    OGRFeatureUniquePtr one(OGRFeature::CreateFeature(d->GetLayer(0)->GetLayerDefn()));
    one->SetField(0, "lost");
    REQUIRE(d->GetLayer(0)->CreateFeature(one.get()) == OGRERR_NONE);
  }
  const FeatureLayer layer = read(folder.file("a.gpkg"));
  CHECK(layer.features.size() == 1);
  REQUIRE(layer.warnings.size() == 1);
  CHECK_THAT(layer.warnings[0], Contains("1 features without a geometry"));
  CHECK(read(folder.file("a.gpkg"), "OBJNAM = 'beds'").warnings.empty());
}

TEST_CASE("a filter keeps what it says, and a broken one is refused by its key") {
  const Folder folder;
  folder.write("a.geojson",
               collection(feature(kSquare, "a", "mapped") + "," + feature(kSquare, "b", "draft")));
  const FeatureLayer layer = read(folder.file("a.geojson"), "status = 'mapped'");
  REQUIRE(layer.features.size() == 1);
  CHECK(layer.features[0].label == "a");
  CHECK_THAT(refusal(folder.file("a.geojson"), "statu = 'mapped'"),
             Contains("closed[0].where: \"statu = 'mapped'\" names \"statu\", which is no field; "
                      "a.geojson has the fields name, status"));
  CHECK_THAT(refusal(folder.file("a.geojson"), "status = "),
             Contains("closed[0].where: \"status = \" is no filter: compare fields with values") &&
                 Contains("name, status") && !Contains("SQL") && !Contains("syntax"));
}

TEST_CASE("a filter holds no query of its own, which might never end") {
  const Folder folder;
  write_geopackage(folder / "a.gpkg", {"only"});
  for (const char* where :
       {"fid IN (SELECT fid FROM only)", "EXISTS(select 1)", "'it''s' = 'x' OR (SeLeCt 1) = 1"}) {
    CHECK_THAT(refusal(folder.file("a.gpkg"), where), Contains("closed[0].where: "));
    CHECK_THAT(refusal(folder.file("a.gpkg"), where), Contains("query"));
  }
  folder.write("b.geojson", collection(feature(kSquare, "a", "select")));
  CHECK(read(folder.file("b.geojson"), "status = 'select'").features.size() == 1);
  CHECK(read(folder.file("b.geojson"), "status <> 'it''s select'").features.size() == 1);
}

TEST_CASE("shapes away from the box are not read, and huge ones are cut around it") {
  const Folder folder;
  folder.write(
      "a.geojson",
      collection(feature(R"({"type":"Point","coordinates":[10,50]})", "far") + "," +
                 feature(R"({"type":"Polygon","coordinates":[[[-170,-80],[170,-80],[170,80],)"
                         R"([-170,80],[-170,-80]]]})",
                         "sea")));
  const FeatureLayer layer = read(folder.file("a.geojson"));
  REQUIRE(layer.features.size() == 1);
  CHECK(layer.features[0].label == "sea");
  const Polygon& sea = layer.features[0].shape.polygons.at(0);
  const auto projector = geoio::make_opener()->projector("EPSG:4326", kUtm, "x");
  for (XY p : {XY{kBay.west, kBay.south}, XY{kBay.east, kBay.north}, XY{-30.0, 41.0}}) {
    projector->forward({&p, 1});
    CHECK(contains(sea, p));
    for (std::size_t k = 1; k < sea.outer.size(); ++k) {
      REQUIRE(distance_to_segment(p, sea.outer[k - 1], sea.outer[k]) > 50000.0);
    }
  }
}

TEST_CASE("without a box every feature is read, in whatever system it is") {
  const Folder folder;
  write_geopackage(folder / "a.gpkg", {"beds"});
  const FeatureLayer layer = read(folder.file("a.gpkg"), "", "EPSG:4326", LonLatBox{});
  REQUIRE(layer.features.size() == 1);
  CHECK(layer.features[0].shape.polygons.at(0).outer.at(0).x == Approx(-30.1));
  CHECK(layer.operation == "none needed");
}

TEST_CASE("several layers have to be told apart; empty ones do not count") {
  const Folder folder;
  write_geopackage(folder / "a.gpkg", {"eelgrass", "moorings"});
  CHECK_THAT(refusal(folder.file("a.gpkg")),
             Contains("closed[0]: a.gpkg") && Contains("layer") && Contains("eelgrass, moorings"));
  CHECK_THAT(refusal(folder.file("a.gpkg", "", "eelgras")),
             Contains("no layer \"eelgras\"") && Contains("(\"eelgrass\"?)"));
  const FeatureLayer layer = read(folder.file("a.gpkg", "", "moorings"));
  CHECK(layer.features.at(0).label == "moorings");
  CHECK(layer.format == "GPKG");
  folder.write("a.gpx",
               "<?xml version=\"1.0\"?><gpx version=\"1.1\" creator=\"x\" "
               "xmlns=\"http://www.topografix.com/GPX/1/1\"><wpt lat=\"41.0\" lon=\"-30.0\">"
               "<name>buoy</name></wpt></gpx>");
  CHECK(read(folder.file("a.gpx")).features.at(0).label == "buoy");
}

TEST_CASE("KML and FlatGeobuf and shapefiles are read") {
  const Folder folder;
  folder.write("a.kml",
               "<?xml version=\"1.0\"?><kml xmlns=\"http://www.opengis.net/kml/2.2\"><Document>"
               "<Placemark><name>rock</name><Point><coordinates>-30.05,41.02</coordinates></Point>"
               "</Placemark></Document></kml>");
  CHECK(read(folder.file("a.kml")).features.at(0).label == "rock");
  for (const auto& [driver, name] :
       {std::pair{"FlatGeobuf", "a.fgb"}, std::pair{"ESRI Shapefile", "a.shp"}}) {
    CAPTURE(driver);
    GDALDatasetUniquePtr d(GetGDALDriverManager()->GetDriverByName(driver)->Create(
        (folder / name).c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    const OGRSpatialReference reference = epsg(32625);
    OGRLayer* layer =
        d->CreateLayer("a", const_cast<OGRSpatialReference*>(&reference), wkbPoint, nullptr);
    OGRFieldDefn field("NAME", OFTString);
    REQUIRE(layer->CreateField(&field) == OGRERR_NONE);
    OGRFeatureUniquePtr one(OGRFeature::CreateFeature(layer->GetLayerDefn()));
    one->SetField(0, "pile");
    OGRPoint point(748000, 4543000);
    one->SetGeometry(&point);
    REQUIRE(layer->CreateFeature(one.get()) == OGRERR_NONE);
    d.reset();
    const FeatureLayer read_back = read(folder.file(name));
    CHECK(read_back.features.at(0).label == "pile");
    CHECK(read_back.features[0].shape.points.at(0).x == Approx(748000.0));
    CHECK(read_back.operation == "none needed");
  }
}

TEST_CASE("a missing reference system and a hostile or broken file are refused") {
  const Folder folder;
  write_geopackage(folder / "a.gpkg", {"beds"}, 0);
  CHECK_THAT(refusal(folder.file("a.gpkg")), Contains("no reference system") && Contains("-a_srs"));
  folder.write("a.csv", "x,y\n1,2\n");
  CHECK_THAT(refusal(folder.file("a.csv")), Contains("cannot be read as shapes"));
  folder.write("v.geojson",
               "<OGRVRTDataSource><OGRVRTLayer name=\"a\"><SrcDataSource>a.csv</SrcDataSource>"
               "</OGRVRTLayer></OGRVRTDataSource>");
  CHECK_THAT(refusal(folder.file("v.geojson")), Contains("cannot be read as shapes"));
  CHECK_THAT(refusal(folder.file("none.gpkg")), Contains("closed[0]: none.gpkg: does not exist"));
  const FileRef remote{"/vsicurl/http://localhost/a.gpkg", "/vsicurl/http://localhost/a.gpkg", "",
                       ""};
  CHECK_THAT(refusal(remote), Contains("on this machine"));
}

TEST_CASE("a GeoJSON whose reference system cannot be read is not taken for WGS 84") {
  const Folder folder;
  const auto with = [&](const std::string& crs) {
    folder.write("a.geojson", "{\"crs\":" + crs + "," + collection(feature(kSquare)).substr(1));
    return folder.file("a.geojson");
  };
  const std::string name = R"({"type":"name","properties":{"name":")";
  for (const std::string& crs :
       {name + R"(EPSG:99999"}})", name + R"(of our own"}})", name + R"(ftp://127.0.0.1:9/x"}})",
        std::string(R"({"type":"link","properties":{"href":"ftp://127.0.0.1:9/x"}})"),
        std::string(R"({"type":"name","properties":{}})"), std::string(R"("EPSG:32625")")}) {
    INFO(crs);
    CHECK_THAT(refusal(with(crs)),
               Contains("a.geojson") && Contains("states a reference system that is not known"));
  }
  for (const std::string& crs : {std::string("null"), name + R"(urn:ogc:def:crs:OGC:1.3:CRS84"}})",
                                 name + R"(EPSG:4326"}})"}) {
    INFO(crs);
    CHECK(read(with(crs)).features.size() == 1);
  }
}

TEST_CASE("a GeoPackage that another program is writing to is refused") {
  const Folder folder;
  write_geopackage(folder / "a.gpkg", {"beds"});
  CHECK(read(folder.file("a.gpkg")).features.size() == 1);
  folder.write("a.gpkg-journal", "half a transaction");
  CHECK_THAT(refusal(folder.file("a.gpkg")), Contains("not finished"));
}

TEST_CASE("a name that is not UTF-8 is replaced and its row named") {
  const Folder folder;
  folder.write("a.geojson", collection(feature(kSquare, "caf\xe9")));
  const FeatureLayer layer = read(folder.file("a.geojson"));
  CHECK(layer.features.at(0).label == "caf?");
  REQUIRE(layer.warnings.size() == 1);
  CHECK_THAT(layer.warnings[0], Contains("feature 0") && Contains("UTF-8"));
}

TEST_CASE("columns that the plan names are read, and a missing or wrong one is refused") {
  const Folder folder;
  const auto with = [](const std::string& keep, const std::string& status) {
    return R"({"type":"Feature","properties":{"keep_m":)" + keep + R"(,"class":)" + status +
           R"(},"geometry":)" + kSquare + "}";
  };
  folder.write("a.geojson", collection(with("25.5", R"("Approved")") + "," + with("null", "null")));
  const auto opener = geoio::make_opener();
  const auto read_columns = [&](const FileRef& file, const FeatureColumns& columns) {
    return opener->read_features(file, "", "closed[0]", kUtm, kBay, columns);
  };
  const FeatureLayer layer = read_columns(folder.file("a.geojson"), {"keep_m", "class"});
  REQUIRE(layer.features.size() == 2);
  CHECK(layer.features[0].own_setback == 25.5);
  CHECK(layer.features[0].status == "Approved");
  CHECK_FALSE(layer.features[1].own_setback);
  CHECK(layer.features[1].status.empty());
  CHECK_THAT(failure([&] {
               (void)read_columns(folder.file("a.geojson"), {"keep", ""});
             }),
             Contains("no column \"keep\"") && Contains("setback_field") && Contains("keep_m"));
  folder.write("b.geojson", collection(with("-1", "null")));
  CHECK_THAT(failure([&] {
               (void)read_columns(folder.file("b.geojson"), {"keep_m", ""});
             }),
             Contains("b.geojson") && Contains("0 to 10000"));
  folder.write("c.geojson", collection(with(R"("30 m")", "null")));
  CHECK_THAT(failure([&] {
               (void)read_columns(folder.file("c.geojson"), {"keep_m", ""});
             }),
             Contains("not a number of metres"));
}
