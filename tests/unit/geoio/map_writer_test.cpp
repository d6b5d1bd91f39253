// SPDX-License-Identifier: Apache-2.0
#include "tidelot/report/map_writer.hpp"

#include <gdal_priv.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <csignal>
#include <cstdint>
#include <limits>
#include <string>
#include <thread>
#include <vector>

#include "geoio/geoio.hpp"
#include "support/temp_folder.hpp"
#include "tidelot/core/error.hpp"

using tidelot::Error;
using tidelot::Fault;
using tidelot::Grid;
using tidelot::MapBand;
using tidelot::MapFile;
using tidelot::test::bytes_of;
using tidelot::test::TempFolder;

namespace {

constexpr float kNaN = std::numeric_limits<float>::quiet_NaN();

Grid small_grid() { return {250000, 4540000, 10, 3, 2, "EPSG:32626"}; }
Grid wide_grid() { return {250000, 4540000, 10, 700, 650, "EPSG:32626"}; }

std::vector<float> waves(const Grid& grid) {
  std::vector<float> values(grid.size());
  for (std::size_t i = 0; i < values.size(); ++i) {
    values[i] = static_cast<float>(std::sin(static_cast<double>(i) * 0.001));
  }
  return values;
}

template <typename T>
MapFile map_of(const std::vector<T>& values) {
  MapFile map;
  map.name = "a.tif";
  map.bands = {MapBand{"best estimate", "kg/m", std::span<const T>(values)}};
  return map;
}

void write(const std::filesystem::path& path, const Grid& grid, const MapFile& map) {
  tidelot::geoio::start();
  tidelot::geoio::make_map_writer()->write_map(path, grid, map);
}

std::string failure(const std::filesystem::path& path, const Grid& grid, const MapFile& map) {
  try {
    write(path, grid, map);
  } catch (const Error& error) {
    CHECK(error.fault() == Fault::output);
    CHECK(std::string(error.what()).find('\n') == std::string::npos);
    return error.what();
  }
  return "";
}

GDALDatasetUniquePtr open(const std::filesystem::path& path) {
  GDALDatasetUniquePtr file(GDALDataset::Open(path.c_str()));
  REQUIRE(file != nullptr);
  return file;
}

template <typename T>
std::vector<T> cells_of(GDALDataset& file, int band, GDALDataType type) {
  std::vector<T> cells(static_cast<std::size_t>(file.GetRasterXSize()) *
                       static_cast<std::size_t>(file.GetRasterYSize()));
  REQUIRE(file.GetRasterBand(band)->RasterIO(
              GF_Read, 0, 0, file.GetRasterXSize(), file.GetRasterYSize(), cells.data(),
              file.GetRasterXSize(), file.GetRasterYSize(), type, 0, 0, nullptr) == CE_None);
  return cells;
}

std::string item(GDALMajorObject& object, const char* name) {
  const char* text = object.GetMetadataItem(name);
  return text == nullptr ? "none" : text;
}

/// Files cannot grow beyond a size while it lives; writing then fails as on a full disk.
class SmallFiles {
 public:
  explicit SmallFiles(rlim_t bytes) : handler_(std::signal(SIGXFSZ, SIG_IGN)) {
    ::getrlimit(RLIMIT_FSIZE, &before_);
    const rlimit limit{bytes, before_.rlim_max};
    ::setrlimit(RLIMIT_FSIZE, &limit);
  }
  ~SmallFiles() {
    ::setrlimit(RLIMIT_FSIZE, &before_);
    std::signal(SIGXFSZ, handler_);
  }

 private:
  rlimit before_{};
  void (*handler_)(int);
};

/// A disk of a given size on a folder; only root can make one.
class SmallDisk {
 public:
  SmallDisk(std::filesystem::path folder, const std::string& size)
      : folder_(std::move(folder)),
        mounted_(::mount("tmpfs", folder_.c_str(), "tmpfs", 0, ("size=" + size).c_str()) == 0) {}
  ~SmallDisk() {
    if (mounted_) {
      ::umount2(folder_.c_str(), MNT_DETACH);
    }
  }
  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;
  [[nodiscard]] bool mounted() const { return mounted_; }

 private:
  std::filesystem::path folder_;
  bool mounted_;
};

}  // namespace

TEST_CASE("a map of codes holds its colours, one of quantities none", "[geoio]") {
  const TempFolder folder;
  const std::vector<std::uint8_t> codes{1, 2, 3, 1, 2, 3};
  MapFile map{"reason.tif", {{"reason", "", std::span<const std::uint8_t>(codes)}}, 0.0, {}, {}};
  map.colours = {{10, 20, 30}, {40, 50, 60}, {70, 80, 90}, {255, 0, 1}};
  write(folder / "reason.tif", small_grid(), map);
  const GDALDatasetUniquePtr file(GDALDataset::Open((folder / "reason.tif").c_str()));
  REQUIRE(file != nullptr);
  const GDALColorTable* table = file->GetRasterBand(1)->GetColorTable();
  REQUIRE(table != nullptr);
  for (int code = 0; code < 4; ++code) {
    const auto& asked = map.colours[static_cast<std::size_t>(code)];
    const GDALColorEntry* entry = table->GetColorEntry(code);
    CHECK(entry->c1 == asked.r);
    CHECK(entry->c2 == asked.g);
    CHECK(entry->c3 == asked.b);
  }
  map.colours.clear();
  write(folder / "plain.tif", small_grid(), map);
  const GDALDatasetUniquePtr plain(GDALDataset::Open((folder / "plain.tif").c_str()));
  REQUIRE(plain != nullptr);
  CHECK(plain->GetRasterBand(1)->GetColorTable() == nullptr);
}

TEST_CASE("cells that are not known become nodata, true zeros stay") {
  const TempFolder folder;
  const std::vector<float> values{0.0F, kNaN, -0.0F, 0.25F, kNaN, 1.0F};
  write(folder / "a.tif", small_grid(), map_of(values));
  const auto file = open(folder / "a.tif");
  CHECK(cells_of<float>(*file, 1, GDT_Float32) == std::vector<float>{0, -9999, 0, 0.25F, -9999, 1});
  CHECK(file->GetRasterBand(1)->GetNoDataValue() == -9999.0);
}

TEST_CASE("a map has the grid's place, and says what it shows") {
  const TempFolder folder;
  const std::vector<float> values(6, 2.5F);
  MapFile map = map_of(values);
  map.bands.push_back(MapBand{"10 % are below (µ)", "kg/m", std::span<const float>(values)});
  map.metadata = {{"TITLE", "Heron Bight, \"summer\" & <autumn>"}, {"DATUM", "MLLW"}};
  write(folder / "a.tif", small_grid(), map);
  const auto file = open(folder / "a.tif");
  double transform[6] = {};
  REQUIRE(file->GetGeoTransform(transform) == CE_None);
  CHECK(std::vector<double>(transform, transform + 6) ==
        std::vector<double>{250000, 10, 0, 4540000, 0, -10});
  CHECK(std::string(file->GetSpatialRef()->GetAuthorityCode(nullptr)) == "32626");
  CHECK(item(*file, "TITLE") == "Heron Bight, \"summer\" & <autumn>");
  CHECK(item(*file, "DATUM") == "MLLW");
  CHECK(item(*file, "AREA_OR_POINT") == "Area");
  REQUIRE(file->GetRasterCount() == 2);
  CHECK(std::string(file->GetRasterBand(1)->GetDescription()) == "best estimate");
  CHECK(std::string(file->GetRasterBand(2)->GetDescription()) == "10 % are below (µ)");
  CHECK(std::string(file->GetRasterBand(2)->GetUnitType()) == "kg/m");
}

TEST_CASE("blanks at the ends of a title do not make a map a broken one") {
  const std::vector<float> values(6, 2.5F);
  MapFile map = map_of(values);
  for (const char* title : {" Heron Bight", "Heron Bight ", "  Heron Bight  "}) {
    const TempFolder folder;
    map.metadata = {{"TITLE", title}};
    write(folder / "a.tif", small_grid(), map);
    CHECK(item(*open(folder / "a.tif"), "TITLE").find("Heron Bight") != std::string::npos);
  }
}

TEST_CASE("statistics are of the known cells") {
  const TempFolder folder;
  const std::vector<float> values{1, 2, kNaN, 3, 4, kNaN};
  write(folder / "a.tif", small_grid(), map_of(values));
  const auto file = open(folder / "a.tif");
  GDALRasterBand& band = *file->GetRasterBand(1);
  CHECK(item(band, "STATISTICS_MINIMUM") == "1");
  CHECK(item(band, "STATISTICS_MAXIMUM") == "4");
  CHECK(item(band, "STATISTICS_MEAN") == "2.5");
  CHECK(item(band, "STATISTICS_STDDEV").substr(0, 8) == "1.118033");
  CHECK(item(band, "STATISTICS_VALID_PERCENT") == "66.6666");
}

TEST_CASE("a map on which nothing is known has no minimum") {
  const TempFolder folder;
  const std::vector<float> values(6, kNaN);
  write(folder / "a.tif", small_grid(), map_of(values));
  const auto file = open(folder / "a.tif");
  CHECK(item(*file->GetRasterBand(1), "STATISTICS_MINIMUM") == "none");
  CHECK(item(*file->GetRasterBand(1), "STATISTICS_VALID_PERCENT") == "0");
  CHECK(cells_of<float>(*file, 1, GDT_Float32) == std::vector<float>(6, -9999.0F));
}

TEST_CASE("bits above 2^31 survive") {
  const TempFolder folder;
  const std::vector<std::uint32_t> values{0, 1, 0x80000000U, 0xFFFFFFFEU, 0xFFFFFFFFU, 256};
  MapFile map = map_of(values);
  map.nodata = 4294967295.0;
  write(folder / "a.tif", small_grid(), map);
  const auto file = open(folder / "a.tif");
  CHECK(file->GetRasterBand(1)->GetRasterDataType() == GDT_UInt32);
  CHECK(cells_of<std::uint32_t>(*file, 1, GDT_UInt32) == values);
  CHECK(file->GetRasterBand(1)->GetNoDataValue() == 4294967295.0);
  CHECK(item(*file->GetRasterBand(1), "STATISTICS_MAXIMUM") == "4294967294");
}

TEST_CASE("a map of codes carries the text of each code inside the file") {
  const TempFolder folder;
  const std::vector<std::uint8_t> values{0, 1, 64, 64, 255, 1};
  MapFile map = map_of(values);
  map.nodata = 0;
  map.categories.resize(65);
  map.categories[1] = "land";
  map.categories[64] = "closed: eelgrass beds & <reef>";
  write(folder / "a.tif", small_grid(), map);
  const auto file = open(folder / "a.tif");
  CHECK(cells_of<std::uint8_t>(*file, 1, GDT_Byte) == values);
  CHECK(item(*file->GetRasterBand(1), "CATEGORY_1") == "land");
  CHECK(item(*file->GetRasterBand(1), "CATEGORY_64") == "closed: eelgrass beds & <reef>");
  CHECK(item(*file->GetRasterBand(1), "CATEGORY_0") == "none");
  CHECK(file->GetRasterBand(1)->GetNoDataValue() == 0.0);
}

TEST_CASE("a map larger than a tile is cloud optimized, and its overviews hold only its values") {
  const TempFolder folder;
  const Grid grid = wide_grid();
  std::vector<float> values(grid.size());
  for (std::size_t i = 0; i < values.size(); ++i) {
    values[i] = i % 3 == 0 ? kNaN : (i % 2 == 0 ? 0.0F : 1.0F);
  }
  write(folder / "a.tif", grid, map_of(values));
  const auto file = open(folder / "a.tif");
  CHECK(std::string(file->GetMetadataItem("LAYOUT", "IMAGE_STRUCTURE")) == "COG");
  CHECK(std::string(file->GetMetadataItem("COMPRESSION", "IMAGE_STRUCTURE")) == "ZSTD");
  GDALRasterBand* overview = file->GetRasterBand(1)->GetOverview(0);
  REQUIRE(overview != nullptr);
  std::vector<float> cells(350 * 325);
  REQUIRE(overview->RasterIO(GF_Read, 0, 0, 350, 325, cells.data(), 350, 325, GDT_Float32, 0, 0,
                             nullptr) == CE_None);
  for (const float cell : cells) {
    REQUIRE((cell == -9999.0F || cell == 0.0F || cell == 1.0F));
  }
}

TEST_CASE("each band has its own overviews down to one tile, each value from its own place") {
  const TempFolder folder;
  const Grid grid{250000, 4540000, 10, 1301, 520, "EPSG:32626"};
  std::vector<std::uint32_t> first(grid.size());
  std::vector<std::uint32_t> second(grid.size());
  for (std::size_t i = 0; i < first.size(); ++i) {
    first[i] = static_cast<std::uint32_t>(i);
    second[i] = static_cast<std::uint32_t>(i + grid.size());
  }
  MapFile map = map_of(first);
  map.bands.push_back(MapBand{"other", "", std::span<const std::uint32_t>(second)});
  map.nodata = 4294967295.0;
  write(folder / "a.tif", grid, map);
  const auto file = open(folder / "a.tif");
  for (int b = 1; b <= 2; ++b) {
    REQUIRE(file->GetRasterBand(b)->GetOverviewCount() == 2);
    for (int level = 0; level < 2; ++level) {
      GDALRasterBand& overview = *file->GetRasterBand(b)->GetOverview(level);
      const int factor = 2 << level;
      const int cols = overview.GetXSize();
      const int rows = overview.GetYSize();
      REQUIRE(cols == (1301 + factor - 1) / factor);
      REQUIRE(rows == (520 + factor - 1) / factor);
      std::vector<std::uint32_t> cells(static_cast<std::size_t>(cols) *
                                       static_cast<std::size_t>(rows));
      REQUIRE(overview.RasterIO(GF_Read, 0, 0, cols, rows, cells.data(), cols, rows, GDT_UInt32, 0,
                                0, nullptr) == CE_None);
      for (std::size_t i = 0; i < cells.size(); ++i) {
        const auto at = cells[i] - (b == 1 ? 0U : static_cast<std::uint32_t>(grid.size()));
        REQUIRE(at < grid.size());
        const double col = static_cast<double>(i % static_cast<std::size_t>(cols)) + 0.5;
        const double row = static_cast<double>(i / static_cast<std::size_t>(cols)) + 0.5;
        REQUIRE(std::abs(static_cast<double>(at % 1301) + 0.5 - col * 1301 / cols) <= 0.5 * factor);
        REQUIRE(std::abs(static_cast<double>(at / 1301) + 0.5 - row * 520 / rows) <= 0.5 * factor);
      }
    }
  }
}

TEST_CASE("the same map gives the same bytes, whatever else is written meanwhile") {
  const TempFolder folder;
  const Grid grid = wide_grid();
  const std::vector<float> values = waves(grid);
  const MapFile map = map_of(values);
  write(folder / "alone.tif", grid, map);
  std::vector<std::thread> threads;
  for (int i = 0; i < 4; ++i) {
    threads.emplace_back([&, i] { write(folder / std::to_string(i), grid, map); });
  }
  for (std::thread& thread : threads) {
    thread.join();
  }
  for (int i = 0; i < 4; ++i) {
    CHECK(bytes_of(folder / std::to_string(i)) == bytes_of(folder / "alone.tif"));
  }
}

TEST_CASE("a map is one file, with nothing beside it and nothing left in memory") {
  const TempFolder folder;
  const Grid grid = wide_grid();
  const std::vector<float> values = waves(grid);
  write(folder / "a.tif", grid, map_of(values));
  CHECK(folder.count() == 1);
  CHECK(CPLStringList(VSIReadDir("/vsimem/")).Count() == 0);
}

TEST_CASE("systems of any kind of projection come back as they were") {
  const std::string crs = GENERATE(
      "EPSG:3035", "EPSG:32719", "EPSG:3857", "+proj=laea +lat_0=41 +lon_0=-30 +datum=WGS84",
      "+proj=tmerc +lat_0=40 +lon_0=-30 +k=0.99995 +x_0=20000 +y_0=0 +ellps=GRS80",
      "+proj=aea +lat_1=29.5 +lat_2=45.5 +lat_0=23 +lon_0=-96 +datum=NAD83");
  CAPTURE(crs);
  const TempFolder folder;
  const std::vector<float> values(6, 1.0F);
  Grid grid = small_grid();
  grid.crs = crs;
  CHECK(failure(folder / "a.tif", grid, map_of(values)) == "");
}

TEST_CASE("a grid of one cell can be written") {
  const TempFolder folder;
  const std::vector<float> values{0.5F};
  write(folder / "a.tif", Grid{0, 0, 0.5, 1, 1, "EPSG:32626"}, map_of(values));
  CHECK(cells_of<float>(*open(folder / "a.tif"), 1, GDT_Float32) == values);
}

TEST_CASE("a folder that does not exist is named, and not made") {
  const TempFolder folder;
  const std::vector<float> values(6, 1.0F);
  const std::string line = failure(folder / "none" / "a.tif", small_grid(), map_of(values));
  CHECK(line.find("none/a.tif") != std::string::npos);
  CHECK(folder.count() == 0);
}

TEST_CASE("a file that stands there already is left alone") {
  const TempFolder folder;
  std::ofstream(folder / "a.tif") << "somebody's";
  const std::vector<float> values(6, 1.0F);
  CHECK(failure(folder / "a.tif", small_grid(), map_of(values)).find("a.tif") != std::string::npos);
  CHECK(bytes_of(folder / "a.tif") == "somebody's");
}

TEST_CASE("a link to a device that is always full is no place for a map") {
  const TempFolder folder;
  std::filesystem::create_symlink("/dev/full", folder / "a.tif");
  const std::vector<float> values(6, 1.0F);
  CHECK(failure(folder / "a.tif", small_grid(), map_of(values)) != "");
  CHECK(std::filesystem::is_symlink(folder / "a.tif"));
}

TEST_CASE("a file that cannot grow to its size is an error, and leaves nothing behind") {
  const TempFolder folder;
  const Grid grid = wide_grid();
  const std::vector<float> values = waves(grid);
  std::string line;
  {
    const SmallFiles limit(100'000);
    line = failure(folder / "a.tif", grid, map_of(values));
  }
  CHECK(line.find("a.tif") != std::string::npos);
  CHECK(folder.count() == 0);
  CHECK(failure(folder / "a.tif", grid, map_of(values)) == "");  // and works again afterwards
}

TEST_CASE("a full disk is an error that says so, and leaves nothing behind") {
  const TempFolder folder;
  std::filesystem::create_directory(folder / "disk");
  const SmallDisk disk(folder / "disk", "128k");
  if (!disk.mounted()) {
    WARN("SKIPPED: only root can mount a small disk; the test of the size limit stands in");
    return;
  }
  const Grid grid = wide_grid();
  const std::vector<float> values = waves(grid);
  const std::string line = failure(folder / "disk" / "a.tif", grid, map_of(values));
  CHECK(line.find("disk/a.tif") != std::string::npos);
  CHECK(line.find("No space left on device") != std::string::npos);
  CHECK(std::filesystem::is_empty(folder / "disk"));
}

TEST_CASE("bands that do not fit the grid are a fault of the code") {
  const TempFolder folder;
  const std::vector<float> five(5, 1.0F);
  const std::vector<std::uint8_t> six(6, 1);
  CHECK_THROWS_AS(write(folder / "a.tif", small_grid(), map_of(five)), std::invalid_argument);
  CHECK_THROWS_AS(write(folder / "a.tif", small_grid(), MapFile{}), std::invalid_argument);
  const std::vector<float> right(6, 1.0F);
  MapFile mixed = map_of(right);
  mixed.bands.push_back(MapBand{"codes", "", std::span<const std::uint8_t>(six)});
  CHECK_THROWS_AS(write(folder / "a.tif", small_grid(), mixed), std::invalid_argument);
  CHECK(folder.count() == 0);
}
