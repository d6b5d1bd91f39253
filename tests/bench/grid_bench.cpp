// SPDX-License-Identifier: Apache-2.0
// What is done once a cell beside growing: sampling a layer, closing water around shapes, fetch,
// the way over water, and placing sites. Cells (of the grid) a second, on one core; each must stay
// about the same as the grid grows.
#include <benchmark/benchmark.h>

#include <cmath>
#include <random>

#include "geoio/geoio.hpp"
#include "support/scored_bay.hpp"
#include "tidelot/core/water_distance.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/fetch.hpp"
#include "tidelot/layers/sampler.hpp"

namespace {

using namespace tidelot;

constexpr double kCell_m = 10.0;
constexpr double kDegreesAPixel = 0.00015;

Grid square(std::int64_t side) {
  const int cells = static_cast<int>(side);
  return {490000.0, 4560000.0, kCell_m, cells, cells, "EPSG:32623"};
}

void count(benchmark::State& state, const Grid& grid) {
  state.counters["cells"] = benchmark::Counter(static_cast<double>(grid.size()),
                                               benchmark::Counter::kIsIterationInvariantRate);
}

/// Water with round islands of up to 400 m.
std::vector<float> islands(const Grid& grid) {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> unit(0.0, 1.0);
  std::vector<float> depth(grid.size(), 8.0F);
  for (std::size_t island = 0; island < grid.size() / 20000; ++island) {
    const int col = static_cast<int>(unit(random) * grid.cols);
    const int row = static_cast<int>(unit(random) * grid.rows);
    const int radius = 2 + static_cast<int>(unit(random) * 38.0);
    for (int r = std::max(0, row - radius); r < std::min(grid.rows, row + radius); ++r) {
      for (int c = std::max(0, col - radius); c < std::min(grid.cols, col + radius); ++c) {
        if (std::hypot(r - row, c - col) < radius) {
          depth[grid.index(c, r)] = -1.0F;
        }
      }
    }
  }
  return depth;
}

/// A raster of degrees over the grid and a margin, in memory.
MemoryRaster raster_over(const Grid& grid, Projector& to_degrees) {
  std::vector<XY> corners{{grid.west, grid.north}, {grid.east(), grid.south()}};
  to_degrees.forward(corners);
  RasterInfo info;
  info.cols = static_cast<int>((corners[1].x - corners[0].x) / kDegreesAPixel) + 20;
  info.rows = static_cast<int>((corners[0].y - corners[1].y) / kDegreesAPixel) + 20;
  info.bands = 1;
  info.geotransform = {corners[0].x - 10 * kDegreesAPixel,
                       kDegreesAPixel,
                       0,
                       corners[0].y + 10 * kDegreesAPixel,
                       0,
                       -kDegreesAPixel};
  info.geographic = true;
  auto values = std::make_shared<std::vector<float>>();
  for (int row = 0; row < info.rows; ++row) {
    for (int col = 0; col < info.cols; ++col) {
      values->push_back(static_cast<float>(std::sin(0.01 * row) + std::cos(0.013 * col)));
    }
  }
  return {info, values};
}

/// Positions and values, tile by tile, as a run takes them.
void sampling(benchmark::State& state) {
  geoio::start();
  const Grid grid = square(state.range(0));
  const auto opener = geoio::make_opener();
  const auto to_degrees = opener->projector(grid.crs, "EPSG:4326", "area.crs");
  MemoryRaster raster = raster_over(grid, *to_degrees);
  std::vector<float> out;
  for ([[maybe_unused]] auto run : state) {
    for (const Tile& tile : tiles_of(grid, 64)) {
      out.resize(tile.size());
      sample_bilinear(raster, 0, source_positions(grid, tile, *to_degrees, raster.info()), out);
      benchmark::DoNotOptimize(out.data());
    }
  }
  count(state, grid);
}
BENCHMARK(sampling)->Arg(1000)->Arg(2000);

/// Lobed polygons, one for every 8000 cells, each with a setback of 30 m.
std::vector<Feature> lobes(const Grid& grid) {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> unit(0.0, 1.0);
  std::vector<Feature> features(grid.size() / 8000);
  for (Feature& feature : features) {
    const XY middle{grid.west + unit(random) * (grid.east() - grid.west),
                    grid.south() + unit(random) * (grid.north - grid.south())};
    const double radius = 60.0 + 240.0 * unit(random);
    Path ring;
    for (int i = 0; i <= 40; ++i) {
      const double angle = i * 2.0 * 3.14159265358979 / 40;
      const double r = radius * (1.0 + 0.3 * std::sin(3.0 * angle));
      ring.push_back({middle.x + r * std::cos(angle), middle.y + r * std::sin(angle)});
    }
    ring.back() = ring.front();
    feature.shape.polygons.push_back({ring, {}});
    feature.setback_m = 30.0;
  }
  return features;
}

void closing(benchmark::State& state) {
  const Grid grid = square(state.range(0));
  const std::vector<Feature> features = lobes(grid);
  std::vector<std::uint32_t> mask(grid.size());
  for ([[maybe_unused]] auto run : state) {
    mark_closed(grid, features, Standing::closed, 1.0, 8, mask);
    benchmark::DoNotOptimize(mask.data());
  }
  count(state, grid);
}
BENCHMARK(closing)->Arg(1000)->Arg(2000);

void fetch_of_16_directions(benchmark::State& state) {
  const Grid grid = square(state.range(0));
  const std::vector<float> depth = islands(grid);
  std::vector<float> fetch(grid.size()), mean_depth(grid.size());
  for ([[maybe_unused]] auto run : state) {
    const FetchSweep sweep(grid, depth);
    for (int i = 0; i < 16; ++i) {
      sweep(22.5 * i, 5000.0, fetch, mean_depth);
      benchmark::DoNotOptimize(fetch.data());
    }
  }
  count(state, grid);
}
BENCHMARK(fetch_of_16_directions)->Arg(1000)->Arg(2000);

void way_over_water(benchmark::State& state) {
  const Grid grid = square(state.range(0));
  const std::vector<float> depth = islands(grid);
  for ([[maybe_unused]] auto run : state) {
    const Waterway way(grid, depth);
    benchmark::DoNotOptimize(water_distance(way, grid.centre(0, 0)));
  }
  count(state, grid);
}
BENCHMARK(way_over_water)->Arg(1000)->Arg(2000);

/// Ten sites of 1.2 ha in uneven water with islands.
void placing(benchmark::State& state) {
  const int side = static_cast<int>(state.range(0));
  test::ScoredBay bay(side, side, kCell_m);
  bay.plan.sites.count = 10;
  const std::vector<float> depth = islands(bay.grid);
  for (std::size_t i = 0; i < bay.grid.size(); ++i) {
    const double x = static_cast<double>(i % static_cast<std::size_t>(side));
    const double y = static_cast<double>(i / static_cast<std::size_t>(side));
    bay.suitability[i] = static_cast<float>(0.6 + 0.2 * std::sin(x / 37.0) * std::cos(y / 53.0));
    bay.yield[i] = static_cast<float>(1.5 + 0.5 * std::cos(x / 91.0 + y / 71.0));
    if (depth[i] < 0.0F) {
      bay.set_land(i);
    }
  }
  for ([[maybe_unused]] auto run : state) {
    benchmark::DoNotOptimize(bay.place());
  }
  count(state, bay.grid);
}
BENCHMARK(placing)->Arg(500)->Arg(1000)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
