// SPDX-License-Identifier: Apache-2.0
// Writing a map as a Cloud Optimized GeoTIFF, with rounding, statistics, overviews, sync and the
// reading back that every map gets, beside GDAL's COG driver alone with the same cells, codec,
// level and overviews, from its memory to the same disk. They take turns in one run, on one core;
// told are the raw megabytes a second of processor time and of the clock (the medians of the
// turns), and how many times GDAL's they are.
//
// usage: cog_bench [TURNS [FOLDER]]    7 turns in a temporary folder
#include <fmt/format.h>
#include <gdal_priv.h>
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <limits>
#include <memory>
#include <stdexcept>

#include "geoio/geoio.hpp"
#include "geoio/map_writer_parts.hpp"
#include "support/temp_folder.hpp"

namespace {

using namespace tidelot;

const Grid kGrid{490000.0, 4560000.0, 10.0, 2000, 2000, "EPSG:32623"};

/// A smooth bay with a third of land (NaN).
std::vector<float> bay(double phase) {
  std::vector<float> out(kGrid.size());
  for (std::size_t i = 0; i < out.size(); ++i) {
    const double x = static_cast<double>(i % static_cast<std::size_t>(kGrid.cols));
    const double y = static_cast<double>(i / static_cast<std::size_t>(kGrid.cols));
    const double height = std::sin(x / 211.0) + std::cos(y / 173.0) + 0.1 * std::sin(x * y / 997.0);
    out[i] = height < -0.4 ? std::numeric_limits<float>::quiet_NaN()
                           : static_cast<float>(height + phase * std::cos(x / 97.0) + 2.0);
  }
  return out;
}

/// Codes of so many steps of the bay; land is `none`.
template <typename T>
std::vector<T> codes(const std::vector<float>& heights, double steps, T none) {
  std::vector<T> out(heights.size());
  std::transform(heights.begin(), heights.end(), out.begin(), [&](float height) {
    return std::isnan(height) ? none : static_cast<T>(1.0 + height * steps);
  });
  return out;
}

struct Spent {
  double cpu_s = 0.0, wall_s = 0.0;
};

Spent now() {
  rusage usage{};
  ::getrusage(RUSAGE_SELF, &usage);
  const auto seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
  };
  const auto wall = std::chrono::steady_clock::now().time_since_epoch();
  return {seconds(usage.ru_utime) + seconds(usage.ru_stime),
          std::chrono::duration<double>(wall).count()};
}

Spent spent(const std::function<void()>& work) {
  const Spent before = now();
  work();
  const Spent after = now();
  return {after.cpu_s - before.cpu_s, after.wall_s - before.wall_s};
}

double median(const std::vector<Spent>& turns, double Spent::*which) {
  std::vector<double> values;
  for (const Spent& turn : turns) {
    values.push_back(turn.*which);
  }
  std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2),
                   values.end());
  return values[values.size() / 2];
}

/// The same cells in GDAL's memory, as they stand in our file.
std::unique_ptr<GDALDataset> in_memory(const MapFile& map) {
  const auto bands = geoio::stored_bands(map);
  std::unique_ptr<GDALDataset> memory(GetGDALDriverManager()->GetDriverByName("MEM")->Create(
      "", kGrid.cols, kGrid.rows, static_cast<int>(bands.size()),
      geoio::cell_type(map.bands.front()), nullptr));
  double transform[6] = {kGrid.west, kGrid.cell_m, 0, kGrid.north, 0, -kGrid.cell_m};
  OGRSpatialReference reference;
  bool good = reference.SetFromUserInput(kGrid.crs.c_str()) == OGRERR_NONE &&
              memory->SetGeoTransform(transform) == CE_None &&
              memory->SetSpatialRef(&reference) == CE_None;
  for (std::size_t b = 0; b < bands.size(); ++b) {
    GDALRasterBand& out = *memory->GetRasterBand(static_cast<int>(b) + 1);
    const GDALColorTable colours = geoio::colour_table(map);
    good = good && out.SetNoDataValue(map.nodata) == CE_None &&
           (map.colours.empty() ||
            out.SetColorTable(const_cast<GDALColorTable*>(&colours)) == CE_None) &&
           std::visit(
               [&](auto cells) {
                 return out.RasterIO(GF_Write, 0, 0, kGrid.cols, kGrid.rows,
                                     const_cast<void*>(static_cast<const void*>(cells.data())),
                                     kGrid.cols, kGrid.rows, out.GetRasterDataType(), 0, 0,
                                     nullptr) == CE_None;
               },
               bands[b].cells());
  }
  if (!good) {
    throw std::runtime_error("GDAL's copy of the cells could not be made");
  }
  return memory;
}

void gdal_writes(const std::filesystem::path& path, GDALDataset& memory, MapCodec codec,
                 int level) {
  CPLStringList options;
  options.SetNameValue("COMPRESS", codec == MapCodec::zstd ? "ZSTD" : "DEFLATE");
  options.SetNameValue("LEVEL", fmt::format("{}", level).c_str());
  options.SetNameValue("PREDICTOR", "YES");
  options.SetNameValue("NUM_THREADS", "1");
  options.SetNameValue("OVERVIEW_RESAMPLING", "NEAREST");
  const std::unique_ptr<GDALDataset> made(
      GetGDALDriverManager()->GetDriverByName("COG")->CreateCopy(path.c_str(), &memory, TRUE,
                                                                 options.List(), nullptr, nullptr));
  if (made == nullptr) {
    throw std::runtime_error("GDAL could not write it");
  }
}

void measure(MapFile map, MapCodec codec, int turns, const std::filesystem::path& folder) {
  map.codec = codec;
  const auto memory = in_memory(map);
  const auto ours = folder / "ours.tif";
  const auto theirs = folder / "gdal.tif";
  std::vector<Spent> our_turns;
  std::vector<Spent> gdal_turns;
  for (int turn = 0; turn <= turns; ++turn) {  // the first warms up and does not count
    std::filesystem::remove(ours);
    std::filesystem::remove(theirs);
    const Spent we = spent([&] { geoio::write_cog(ours, kGrid, map); });
    const Spent gdal =
        spent([&] { gdal_writes(theirs, *memory, codec, geoio::codec_level(codec)); });
    if (turn > 0) {
      our_turns.push_back(we);
      gdal_turns.push_back(gdal);
    }
  }
  const double raw_mb = 1e-6 * static_cast<double>(kGrid.size() * map.bands.size()) *
                        GDALGetDataTypeSizeBytes(geoio::cell_type(map.bands.front()));
  const auto row = [&](double Spent::*which) {
    const double we = median(our_turns, which);
    const double gdal = median(gdal_turns, which);
    return fmt::format("{:7.0f} {:7.0f} {:6.2f}", raw_mb / we, raw_mb / gdal, gdal / we);
  };
  const auto mb = [](const auto& path) {
    return 1e-6 * static_cast<double>(std::filesystem::file_size(path));
  };
  fmt::print("{:22} {:7} {:2} | {} | {} | {:6.2f} {:6.2f}\n", map.name,
             codec == MapCodec::zstd ? "zstd" : "deflate", geoio::codec_level(codec),
             row(&Spent::cpu_s), row(&Spent::wall_s), mb(ours), mb(theirs));
}

}  // namespace

int main(int count, char** words) {
  geoio::start();
  const int turns = count > 1 ? std::max(1, std::atoi(words[1])) : 7;
  const test::TempFolder temporary;
  const std::filesystem::path folder = count > 2 ? words[2] : temporary.path();
  const std::vector<float> best = bay(0.0), p10 = bay(0.1), p50 = bay(0.2), p90 = bay(0.3);
  const auto closed = codes<std::uint32_t>(best, 300.0, 0xFFFFFFFEU);
  const auto reason = codes<std::uint8_t>(best, 8.0, 0);
  const auto band = [](const auto& values, int digits) {
    using T = typename std::decay_t<decltype(values)>::value_type;
    return MapBand{"a map", "1", std::span<const T>(values), digits};
  };
  MapFile grown{"yield, 4 bands", {}, -9999.0, {}, {}};
  for (const auto* values : {&best, &p10, &p90, &p50}) {
    grown.bands.push_back(band(*values, kModelDigits));
  }
  MapFile coloured{"reason, colours", {band(reason, kAllDigits)}, 0.0, {}, {}};
  for (int code = 0; code < 64; ++code) {
    coloured.colours.push_back({static_cast<std::uint8_t>(4 * code), 80, 120});
  }
  const std::vector<MapFile> maps{
      grown,
      {"suitability, as it is", {band(best, kAllDigits)}, -9999.0, {}, {}},
      {"one band, rounded", {band(best, kModelDigits)}, -9999.0, {}, {}},
      {"closed, 32 bits", {band(closed, kAllDigits)}, 4294967294.0, {}, {}},
      coloured};
  fmt::print(
      "2000 x 2000 cells; raw MB/s, ours, GDAL's, ratio; MB of the files\n"
      "{:32} | {:22} | {:22} | ours   GDAL\n",
      "", "a CPU second", "a wall second");
  for (const MapCodec codec : {MapCodec::zstd, MapCodec::deflate}) {
    for (const MapFile& map : maps) {
      measure(map, codec, turns, folder);
    }
  }
}
