// SPDX-License-Identifier: Apache-2.0
#include "layers/prepared_raster.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "support/twins.hpp"

using namespace tidelot;
using twins::kNan;

namespace {

const Screen kScreen{{1.0, 0.0}, 0.0, 100.0, "m"};

std::unique_ptr<MemoryRaster> three_bands() {
  std::vector<float> values(3 * 6);
  for (std::size_t i = 0; i < values.size(); ++i) {
    values[i] = static_cast<float>(i);
  }
  values[7] = -5.0F;  // band 1: beyond belief
  values[8] = kNan;   // no data
  return twins::raster(3, 2, 3, 0, 2, 1, -1, values);
}

}  // namespace

TEST_CASE("kept in memory or read again, a raster gives the same values and counts") {
  for (const std::size_t memory : {std::size_t{1000}, std::size_t{1}}) {
    CAPTURE(memory);
    auto kept = prepare(three_bands(), {0, 0, 3, 2}, {2, 1}, kScreen, memory);
    CHECK(kept.source->info().bands == 2);
    CHECK(kept.stats.data == 11);
    CHECK(kept.stats.outside == 1);
    CHECK(kept.stats.low == -5.0);
    CHECK(kept.stats.high == 17.0);
    std::vector<float> row(3);
    kept.source->read(0, {0, 1, 3, 1}, row);
    CHECK(row == std::vector<float>{15, 16, 17});
    kept.source->clone()->read(1, {0, 0, 3, 1}, row);
    CHECK(row[0] == 6.0F);
    CHECK(std::isnan(row[1]));
    CHECK(std::isnan(row[2]));
  }
}

TEST_CASE("one band is kept whole where reading it again would cost more than a row of blocks") {
  RasterInfo info;
  const Window window{0, 0, 5000, 5000};
  CHECK(kept_pixels(info, window, false) == kMemoryPixels);
  CHECK(kept_pixels(info, window, true) == kMemoryValues);
  info.block_rows = 512;
  CHECK(kept_pixels(info, window, false) == kMemoryPixels);
  info.block_rows = 5000;  // one block
  CHECK(kept_pixels(info, window, false) == kMemoryValues);
}

TEST_CASE("a window in memory keeps its place on the earth") {
  const auto kept = prepare(three_bands(), {1, 1, 2, 1}, {0}, std::nullopt);
  CHECK(kept.source->info().cols == 2);
  CHECK(kept.source->info().rows == 1);
  CHECK(kept.source->info().geotransform[0] == 1.0);
  CHECK(kept.source->info().geotransform[3] == 1.0);
  std::vector<float> row(2);
  kept.source->read(0, {0, 0, 2, 1}, row);
  CHECK(row == std::vector<float>{4, 5});
}

TEST_CASE("counts add up") {
  PixelStats a;
  a.add(2.0, true);
  PixelStats b;
  b.add(-1.0, true);
  b.add(500.0, false);
  a.add(PixelStats{});
  a.add(b);
  CHECK(a.data == 3);
  CHECK(a.outside == 1);
  CHECK(a.negative == 1);
  CHECK(a.positive == 1);
  CHECK(a.low == -1.0);
  CHECK(a.high == 500.0);
}

TEST_CASE("a raster in memory needs as many values as pixels") {
  RasterInfo info;
  info.cols = 2;
  info.rows = 2;
  info.bands = 1;
  CHECK_THROWS_AS(MemoryRaster(info, std::make_shared<const std::vector<float>>(3)),
                  std::invalid_argument);
  CHECK_THROWS_AS(MemoryRaster(info, nullptr), std::invalid_argument);
}
