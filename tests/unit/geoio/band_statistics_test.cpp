// SPDX-License-Identifier: Apache-2.0
#include "geoio/band_statistics.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>

using namespace tidelot;

TEST_CASE("a stored float is within 2^-13 of its value and keeps the order") {
  std::mt19937 random(3);
  std::uniform_real_distribution<float> exponent(-30.0F, 30.0F);
  float before = 0.0F;
  float before_stored = 0.0F;
  double worst = 0.0;
  for (int i = 0; i < 20000; ++i) {
    const float value = std::exp2(exponent(random)) * (i % 2 == 0 ? 1.0F : -1.0F);
    const float stored = geoio::rounded(value, kModelDigits);
    worst =
        std::max(worst, std::abs(static_cast<double>(stored) / static_cast<double>(value) - 1.0));
    REQUIRE((value < before) == (value < before && stored <= before_stored));
    before = value;
    before_stored = stored;
  }
  CHECK(worst <= 0x1p-13);
  CHECK(worst > 0.9 * 0x1p-13);
}

TEST_CASE("whole numbers, halves to even, and what is not finite") {
  for (int whole = -8192; whole <= 8192; ++whole) {
    REQUIRE(geoio::rounded(static_cast<float>(whole), kModelDigits) == static_cast<float>(whole));
  }
  CHECK(geoio::rounded(1.0F + 0x1p-13F, kModelDigits) == 1.0F);
  CHECK(geoio::rounded(1.0F + 3 * 0x1p-13F, kModelDigits) == 1.0F + 2 * 0x1p-12F);
  CHECK(geoio::rounded(1.0F + 0x1p-13F + 0x1p-20F, kModelDigits) == 1.0F + 0x1p-12F);
  CHECK(std::isinf(geoio::rounded(std::numeric_limits<float>::infinity(), kModelDigits)));
  CHECK(geoio::rounded(0.1F, kAllDigits) == 0.1F);
  CHECK(geoio::stored(std::numeric_limits<float>::quiet_NaN(), {-9999.0}) == -9999.0F);
  CHECK(std::signbit(geoio::rounded(-0.0F, kModelDigits)));
}

TEST_CASE("statistics are those of the values in the file") {
  const std::vector<float> values{1.00005F, 3.0F, std::numeric_limits<float>::quiet_NaN()};
  const auto items =
      geoio::StoredBand({"", "", std::span<const float>(values), kModelDigits}, -9999.0).items();
  CHECK(items.at(1) == std::pair<std::string, std::string>("STATISTICS_MINIMUM", "1"));
  CHECK(items.at(3) == std::pair<std::string, std::string>("STATISTICS_MEAN", "2"));
}

TEST_CASE("a band says how it is rounded, and only then") {
  const std::vector<float> values{2.0F};
  MapBand band{"", "", std::span<const float>(values)};
  CHECK(geoio::StoredBand(band, -9999.0).items().back().first != "ROUNDING");
  band.digits = kModelDigits;
  CHECK(geoio::StoredBand(band, -9999.0).items().back() ==
        std::pair<std::string, std::string>("ROUNDING",
                                            "13 binary digits: within 0.012 % of the value"));
}
