// SPDX-License-Identifier: Apache-2.0
// Writing a map as a Cloud Optimized GeoTIFF, with overviews, statistics, sync and the reading back
// that every map gets, beside what GDAL's COG driver takes for the same cells and codec from memory
// to disk. Cells a second, on one core.
#include <benchmark/benchmark.h>
#include <gdal_priv.h>

#include <cmath>
#include <filesystem>
#include <limits>
#include <memory>

#include "geoio/geoio.hpp"
#include "geoio/map_writer_parts.hpp"
#include "support/temp_folder.hpp"

namespace {

using namespace tidelot;

Grid square(std::int64_t side) {
  const int cells = static_cast<int>(side);
  return {490000.0, 4560000.0, 10.0, cells, cells, "EPSG:32623"};
}

/// A smooth map with a third of land.
std::vector<float> values(const Grid& grid) {
  std::vector<float> out(grid.size());
  for (std::size_t i = 0; i < out.size(); ++i) {
    const double x = static_cast<double>(i % static_cast<std::size_t>(grid.cols));
    const double y = static_cast<double>(i / static_cast<std::size_t>(grid.cols));
    const double height = std::sin(x / 211.0) + std::cos(y / 173.0) + 0.1 * std::sin(x * y / 997.0);
    out[i] = height < -0.4 ? std::numeric_limits<float>::quiet_NaN() : static_cast<float>(height);
  }
  return out;
}

void count(benchmark::State& state, const Grid& grid) {
  state.counters["cells"] = benchmark::Counter(static_cast<double>(grid.size()),
                                               benchmark::Counter::kIsIterationInvariantRate);
}

void map(benchmark::State& state, int digits) {
  geoio::start();
  const Grid grid = square(state.range(0));
  const std::vector<float> cells = values(grid);
  const test::TempFolder folder;
  MapFile file;
  file.name = "map.tif";
  file.bands.push_back({"a map", "1", std::span<const float>(cells), digits});
  for ([[maybe_unused]] auto run : state) {
    geoio::write_cog(folder / "map.tif", grid, file);
    state.PauseTiming();
    std::filesystem::remove(folder / "map.tif");
    state.ResumeTiming();
  }
  count(state, grid);
}
BENCHMARK_CAPTURE(map, as_computed, kAllDigits)->Arg(2000)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(map, rounded, kModelDigits)->Arg(2000)->Unit(benchmark::kMillisecond);

void gdal_cog_driver(benchmark::State& state) {
  geoio::start();
  const Grid grid = square(state.range(0));
  std::vector<float> cells = values(grid);
  for (float& value : cells) {
    value = std::isnan(value) ? -9999.0F : value;
  }
  const test::TempFolder folder;
  GDALDriverManager& drivers = *GetGDALDriverManager();
  const std::unique_ptr<GDALDataset> memory(
      drivers.GetDriverByName("MEM")->Create("", grid.cols, grid.rows, 1, GDT_Float32, nullptr));
  double transform[6] = {grid.west, grid.cell_m, 0, grid.north, 0, -grid.cell_m};
  OGRSpatialReference reference;
  reference.SetFromUserInput(grid.crs.c_str());
  bool good = memory->SetGeoTransform(transform) == CE_None &&
              memory->SetSpatialRef(&reference) == CE_None &&
              memory->GetRasterBand(1)->SetNoDataValue(-9999.0) == CE_None &&
              memory->GetRasterBand(1)->RasterIO(GF_Write, 0, 0, grid.cols, grid.rows, cells.data(),
                                                 grid.cols, grid.rows, GDT_Float32, 0, 0,
                                                 nullptr) == CE_None;
  const char* const options[] = {"COMPRESS=ZSTD", "PREDICTOR=YES", "NUM_THREADS=1", nullptr};
  const std::string path = (folder / "gdal.tif").string();
  for ([[maybe_unused]] auto run : state) {
    const std::unique_ptr<GDALDataset> made(drivers.GetDriverByName("COG")->CreateCopy(
        path.c_str(), memory.get(), TRUE, const_cast<char**>(options), nullptr, nullptr));
    good = good && made != nullptr;
  }
  if (!good) {
    state.SkipWithError("GDAL could not write it");
  }
  count(state, grid);
}
BENCHMARK(gdal_cog_driver)->Arg(2000)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
