// SPDX-License-Identifier: Apache-2.0
#include <sys/stat.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "fixtures.hpp"
#include "tidelot/layers/sampler.hpp"

using namespace tidelot;
using namespace tidelot::fixtures;
using Catch::Contains;

namespace {

std::unique_ptr<RasterSource> open(const FileRef& file) {
  return geoio::make_opener()->open_raster(file, "depth");
}

std::string refusal(const FileRef& file) {
  return failure([&] { (void)open(file); });
}

constexpr double kNanD = std::numeric_limits<double>::quiet_NaN();

std::function<void(GDALDataset&)> nodata(double value) {
  return [value](GDALDataset& d) {
    for (int b = 1; b <= d.GetRasterCount(); ++b) {
      d.GetRasterBand(b)->SetNoDataValue(value);
    }
  };
}

}  // namespace

TEST_CASE("a GeoTIFF says what it is and hands out windows") {
  const Folder folder;
  RasterRecipe recipe;
  recipe.values = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12};
  recipe.more = [](GDALDataset& d) { d.GetRasterBand(1)->SetUnitType("ft"); };
  write_raster(folder / "a.tif", recipe);
  const auto source = open(folder.file("a.tif"));
  const RasterInfo& info = source->info();
  CHECK(info.cols == 4);
  CHECK(info.rows == 3);
  CHECK(info.bands == 1);
  CHECK(info.format == "GTiff");
  CHECK(info.unit == "ft");
  CHECK(info.crs == "EPSG:32626");
  CHECK(info.crs_name == "WGS 84 / UTM zone 26N (EPSG:32626)");
  CHECK_FALSE(info.geographic);
  CHECK(info.crs_basis.empty());
  CHECK(info.steps.empty());
  CHECK(info.geotransform == recipe.geotransform);
  std::vector<float> window(4);
  source->read(0, {1, 1, 2, 2}, window);
  CHECK(window == std::vector<float>{6, 7, 10, 11});
  CHECK(all_values(*source->clone()) == all_values(*source));
}

TEST_CASE("the same hole in twelve spellings gives the same mask") {
  const Folder folder;
  const std::string want = "#.##.#######";
  const auto with_hole = [](double fill) {
    return std::vector<double>{1, fill, 3, 4, fill, 6, 7, 8, 9, 10, 11, 12};
  };
  constexpr double kMax = std::numeric_limits<float>::max();
  struct Spelling {
    const char* name;
    GDALDataType type;
    double pixel;
    double tag;
  };
  const Spelling spellings[] = {
      {"int16", GDT_Int16, -9999, -9999},
      {"byte", GDT_Byte, 255, 255},
      {"uint16", GDT_UInt16, 65535, 65535},
      {"int32", GDT_Int32, -2147483648.0, -2147483648.0},
      {"float", GDT_Float32, -9999, -9999},
      {"float nan", GDT_Float32, kNanD, kNanD},
      {"float 1e20", GDT_Float32, 1e20, 1e20},
      {"float lowest", GDT_Float32, -kMax, -kMax},
      {"float beyond", GDT_Float32, -kMax, -3.4028235e38},
      {"float 0.1", GDT_Float32, 0.1, 0.1},
      {"double", GDT_Float64, -1.7976931348623157e308, -1.7976931348623157e308},
      {"nan untagged", GDT_Float64, kNanD, -9999},
  };
  for (const Spelling& s : spellings) {
    CAPTURE(s.name);
    RasterRecipe recipe;
    recipe.type = s.type;
    recipe.values = with_hole(s.pixel);
    recipe.more = nodata(s.tag);
    write_raster(folder / "a.tif", recipe);
    const auto source = open(folder.file("a.tif"));
    CHECK(mask_of(all_values(*source)) == want);
    CHECK(all_values(*source)[11] == 12.0F);
  }
}

TEST_CASE("a mask band and an alpha band hide pixels, and alpha is no band of values") {
  const Folder folder;
  RasterRecipe recipe;
  recipe.values = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12};
  write_raster(folder / "mask.tif", recipe);
  {
    CPLSetThreadLocalConfigOption("GDAL_TIFF_INTERNAL_MASK", "YES");
    GDALDatasetUniquePtr d(GDALDataset::Open((folder / "mask.tif").c_str(), GDAL_OF_UPDATE));
    REQUIRE(d->CreateMaskBand(GMF_PER_DATASET) == CE_None);
    std::vector<GByte> mask{255, 0, 255, 255, 0, 255, 255, 255, 255, 255, 255, 255};
    REQUIRE(d->GetRasterBand(1)->GetMaskBand()->RasterIO(GF_Write, 0, 0, 4, 3, mask.data(), 4, 3,
                                                         GDT_Byte, 0, 0, nullptr) == CE_None);
    CPLSetThreadLocalConfigOption("GDAL_TIFF_INTERNAL_MASK", nullptr);
  }
  CHECK(mask_of(all_values(*open(folder.file("mask.tif")))) == "#.##.#######");
  recipe.bands = 2;
  recipe.type = GDT_UInt16;
  recipe.options = {"ALPHA=YES"};
  const std::vector<double> alpha{255, 0, 255, 255, 0, 255, 255, 255, 255, 255, 255, 255};
  recipe.values.insert(recipe.values.end(), alpha.begin(), alpha.end());
  write_raster(folder / "alpha.tif", recipe);
  const auto source = open(folder.file("alpha.tif"));
  CHECK(source->info().bands == 1);
  CHECK(mask_of(all_values(*source)) == "#.##.#######");
}

TEST_CASE("a nodata value that the band cannot hold hides nothing") {
  const Folder folder;
  RasterRecipe recipe;
  recipe.type = GDT_Byte;
  recipe.values = {1, 241, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12};  // -9999 as a byte would be 241
  recipe.more = nodata(-9999);
  write_raster(folder / "a.tif", recipe);
  CHECK(mask_of(all_values(*open(folder.file("a.tif")))) == "############");
}

TEST_CASE("packed and plain twins give the same values, the mask being decided on raw ones") {
  const Folder folder;
  RasterRecipe packed;
  packed.type = GDT_Int16;
  packed.values = {1234, -9999, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9};
  packed.more = [](GDALDataset& d) {
    d.GetRasterBand(1)->SetNoDataValue(-9999);
    d.GetRasterBand(1)->SetScale(0.01);
    d.GetRasterBand(1)->SetOffset(5.0);
  };
  write_raster(folder / "packed.tif", packed);
  RasterRecipe plain;
  for (const double raw : packed.values) {
    plain.values.push_back(raw == -9999 ? kNanD : raw * 0.01 + 5.0);
  }
  write_raster(folder / "plain.tif", plain);
  const auto a = all_values(*open(folder.file("packed.tif")));
  const auto b = all_values(*open(folder.file("plain.tif")));
  CHECK(a[0] == 17.34F);
  CHECK(mask_of(a) == mask_of(b));
  for (std::size_t i = 0; i < a.size(); ++i) {
    CHECK((a[i] == b[i] || std::isnan(a[i])));
  }
}

TEST_CASE("pixels as points and pixels as areas lie in the same place") {
  const Folder folder;
  RasterRecipe recipe;
  recipe.values = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12};
  write_raster(folder / "area.tif", recipe);
  recipe.more = [](GDALDataset& d) { d.SetMetadataItem(GDALMD_AREA_OR_POINT, GDALMD_AOP_POINT); };
  write_raster(folder / "point.tif", recipe);
  CHECK(open(folder.file("point.tif"))->info().geotransform ==
        open(folder.file("area.tif"))->info().geotransform);
}

TEST_CASE("overviews beside a raster change nothing") {
  const Folder folder;
  RasterRecipe recipe;
  recipe.cols = 64;
  recipe.rows = 64;
  for (int i = 0; i < 64 * 64; ++i) {
    recipe.values.push_back(i % 7);
  }
  write_raster(folder / "a.tif", recipe);
  const auto before = all_values(*open(folder.file("a.tif")));
  {
    GDALDatasetUniquePtr d(GDALDataset::Open((folder / "a.tif").c_str()));
    int level = 2;
    REQUIRE(d->BuildOverviews("AVERAGE", 1, &level, 0, nullptr, nullptr, nullptr) == CE_None);
  }
  REQUIRE(folder.count() == 2);
  CHECK(all_values(*open(folder.file("a.tif"))) == before);
}

TEST_CASE("reading leaves no file behind") {
  const Folder folder;
  RasterRecipe recipe;
  write_raster(folder / "a.tif", recipe);
  (void)all_values(*open(folder.file("a.tif")));
  CHECK(folder.count() == 1);
}

TEST_CASE("a missing reference system is refused with what to do") {
  const Folder folder;
  RasterRecipe recipe;
  recipe.epsg_code = 0;
  write_raster(folder / "a.tif", recipe);
  CHECK_THAT(refusal(folder.file("a.tif")),
             Contains("depth: a.tif") && Contains("no reference system") && Contains("-a_srs"));
  folder.write("grid.asc", "ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 2\n3 4\n");
  CHECK_THAT(refusal(folder.file("grid.asc")), Contains("no reference system"));
}

TEST_CASE("a raster without a place, or with a broken one, is refused") {
  const Folder folder;
  RasterRecipe recipe;
  recipe.driver = "GTiff";
  recipe.geotransform = {0, 1, 0, 0, 0, 1};
  recipe.more = [](GDALDataset& d) {
    const OGRSpatialReference r = epsg(4326);
    GDAL_GCP gcp{};
    char id[] = "1";
    char info[] = "";
    gcp.pszId = id;
    gcp.pszInfo = info;
    gcp.dfGCPX = -30;
    gcp.dfGCPY = 41;
    d.SetGCPs(1, &gcp, &r);
  };
  write_raster(folder / "gcp.tif", recipe);
  CHECK_THAT(refusal(folder.file("gcp.tif")), Contains("ground control points"));
  recipe.more = nullptr;
  recipe.geotransform = {0, 1, 1, 0, 1, 1};  // no inverse
  write_raster(folder / "broken.tif", recipe);
  CHECK_THAT(refusal(folder.file("broken.tif")), Contains("geotransform is broken"));
}

TEST_CASE("a rotated raster is read, and its inverse geotransform is used") {
  const Folder folder;
  RasterRecipe recipe;
  recipe.cols = 30;
  recipe.rows = 30;
  recipe.geotransform = {500000, 8, 6, 4600000, 6, -8};
  for (int row = 0; row < 30; ++row) {
    for (int col = 0; col < 30; ++col) {
      const double x = 500000 + (col + 0.5) * 8 + (row + 0.5) * 6;
      recipe.values.push_back(x - 500000);
    }
  }
  write_raster(folder / "rotated.tif", recipe);
  const auto opener = geoio::make_opener();
  const auto source = open(folder.file("rotated.tif"));
  const Grid grid{500190, 4600010, 2.0, 10, 10, "EPSG:32626"};
  const auto projector = opener->projector(grid.crs, source->info().crs, "depth");
  std::vector<float> out(100);
  sample_bilinear(*source, 0, source_positions(grid, {0, 0, 10, 10}, *projector, source->info()),
                  out);
  for (int i = 0; i < 100; ++i) {
    CHECK(out[static_cast<std::size_t>(i)] ==
          Approx(grid.centre(i % 10, i / 10).x - 500000).margin(1e-3));
  }
}

TEST_CASE("what is not a raster on this machine is refused before GDAL sees it") {
  const Folder folder;
  const auto written = [](const std::string& path) { return FileRef{path, path, "", ""}; };
  CHECK_THAT(refusal(folder.file("none.tif")), Contains("depth: none.tif: does not exist"));
  CHECK_THAT(refusal(written("/vsicurl/http://localhost/a.tif")), Contains("on this machine"));
  CHECK_THAT(refusal(written("/vsizip/a.zip/a.tif")), Contains("on this machine"));
  CHECK_THAT(refusal(written("http://localhost/a.tif")), Contains("on this machine"));
  CHECK_THAT(refusal(written("GTIFF_DIR:1:/data/a.tif")), Contains("on this machine"));
  CHECK_THAT(refusal(written("/dev/zero")), Contains("a device"));
  CHECK_THAT(refusal(written(folder / "")), Contains("a folder"));
  REQUIRE(::mkfifo((folder / "pipe.tif").c_str(), 0600) == 0);
  CHECK_THAT(refusal(folder.file("pipe.tif")), Contains("a pipe"));
  folder.write("text.tif", "not a raster");
  REQUIRE(::mkfifo((folder / "text.tif.msk").c_str(), 0600) == 0);
  CHECK_THAT(refusal(folder.file("text.tif")), Contains("text.tif.msk beside it is a pipe"));
  REQUIRE(::unlink((folder / "text.tif.msk").c_str()) == 0);
  CHECK_THAT(refusal(folder.file("text.tif")), Contains("cannot be read as a raster"));
  folder.write("empty.tif", "");
  CHECK_THAT(refusal(folder.file("empty.tif")), Contains("cannot be read as a raster"));
}

TEST_CASE("a list of other files in disguise is refused") {
  const Folder folder;
  RasterRecipe recipe;
  write_raster(folder / "real.tif", recipe);
  folder.write("disguise.tif",
               "<VRTDataset rasterXSize=\"4\" rasterYSize=\"3\"><SRS>EPSG:32626</SRS>"
               "<GeoTransform>500000,10,0,4600000,0,-10</GeoTransform>"
               "<VRTRasterBand dataType=\"Float32\" band=\"1\"><SimpleSource>"
               "<SourceFilename relativeToVRT=\"1\">real.tif</SourceFilename>"
               "<SourceBand>1</SourceBand></SimpleSource></VRTRasterBand></VRTDataset>");
  GDALDatasetUniquePtr plain(GDALDataset::Open((folder / "disguise.tif").c_str()));
  REQUIRE(plain != nullptr);  // GDAL itself would open it
  CHECK_THAT(refusal(folder.file("disguise.tif")), Contains("cannot be read as a raster"));
}

TEST_CASE("a file cut short is found while its pixels are read") {
  const Folder folder;
  RasterRecipe recipe;
  recipe.cols = 256;
  recipe.rows = 256;
  recipe.values.assign(256 * 256, 3.0);
  recipe.values[70000 % 65536] = 5.0;
  write_raster(folder / "a.tif", recipe);
  std::filesystem::resize_file(folder / "a.tif", 60000);
  const std::string said = failure([&] { (void)all_values(*open(folder.file("a.tif"))); });
  CHECK_THAT(said, Contains("depth: a.tif"));
}

TEST_CASE("a small file that claims to be huge is refused") {
  const Folder folder;
  RasterRecipe recipe;
  recipe.cols = 4;
  write_raster(folder / "a.tif", recipe);
  {
    GDALDriver* const driver = GetGDALDriverManager()->GetDriverByName("GTiff");
    const CPLStringList options(CSLTokenizeString2("SPARSE_OK=TRUE TILED=YES", " ", 0));
    GDALDatasetUniquePtr d(
        driver->Create((folder / "huge.tif").c_str(), 20000, 20000, 1, GDT_Byte, options.List()));
    REQUIRE(d != nullptr);
  }
  CHECK_THAT(refusal(folder.file("huge.tif")), Contains("20000 x 20000"));
}

TEST_CASE(
    "other formats: ASCII grid with .prj, Erdas Imagine, ENVI, XYZ refused without a system") {
  const Folder folder;
  folder.write("grid.asc",
               "ncols 2\nnrows 2\nxllcorner 500000\nyllcorner 4600000\ncellsize 10\n"
               "NODATA_value -9999\n1 -9999\n3 4\n");
  char* wkt = nullptr;
  epsg(32626).exportToWkt(&wkt);
  folder.write("grid.prj", wkt);
  CPLFree(wkt);
  const auto ascii = open(folder.file("grid.asc"));
  CHECK(ascii->info().format == "AAIGrid");
  CHECK(mask_of(all_values(*ascii)) == "#.##");
  for (const char* driver : {"HFA", "ENVI"}) {
    CAPTURE(driver);
    RasterRecipe recipe;
    recipe.driver = driver;
    recipe.values = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12};
    write_raster(folder / (std::string(driver) + ".img"), recipe);
    const auto source = open(folder.file(std::string(driver) + ".img"));
    CHECK(source->info().format == driver);
    CHECK(all_values(*source)[7] == 8.0F);
  }
  folder.write("a.xyz", "0 0 1\n1 0 2\n0 1 3\n1 1 4\n");
  CHECK_THAT(refusal(folder.file("a.xyz")), Contains("no reference system"));
}

TEST_CASE("a variable is asked for only where a file has them") {
  const Folder folder;
  RasterRecipe recipe;
  write_raster(folder / "a.tif", recipe);
  CHECK_THAT(refusal(folder.file("a.tif", "sst")), Contains("no variables"));
}
