// SPDX-License-Identifier: Apache-2.0
#include <cpl_string.h>
#include <cpl_vsi.h>
#include <gdal_priv.h>

#include <catch2/catch.hpp>
#include <cstdint>
#include <stdexcept>
#include <string>
#include <vector>

#include "geoio/geoio.hpp"
#include "support/temp_folder.hpp"

namespace {

std::string encode(int width, int height, const std::vector<std::uint8_t>& rgba) {
  tidelot::geoio::start();
  return tidelot::geoio::make_map_writer()->png(width, height, rgba);
}

/// 3 x 2 pixels that differ in every channel.
std::vector<std::uint8_t> six_pixels() {
  std::vector<std::uint8_t> rgba;
  for (int i = 0; i < 24; ++i) {
    rgba.push_back(static_cast<std::uint8_t>(i * 10));
  }
  return rgba;
}

std::uint32_t big_endian(const std::string& bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    value = value << 8 | static_cast<unsigned char>(bytes[at + i]);
  }
  return value;
}

/// The names of the chunks of a PNG, in order.
std::vector<std::string> chunks(const std::string& bytes) {
  std::vector<std::string> names;
  for (std::size_t at = 8; at + 12 <= bytes.size(); at += 12 + big_endian(bytes, at)) {
    names.push_back(bytes.substr(at + 4, 4));
  }
  return names;
}

}  // namespace

TEST_CASE("a PNG has the size and the four channels that were asked for") {
  const std::string bytes = encode(3, 2, six_pixels());
  REQUIRE(bytes.size() > 33);
  CHECK(bytes.substr(0, 8) == "\x89PNG\r\n\x1a\n");
  CHECK(big_endian(bytes, 16) == 3);
  CHECK(big_endian(bytes, 20) == 2);
  CHECK(bytes[24] == 8);  // bits a channel
  CHECK(bytes[25] == 6);  // red, green, blue, alpha
}

TEST_CASE("a PNG decodes to the pixels that went in") {
  const std::vector<std::uint8_t> asked = six_pixels();
  const tidelot::test::TempFolder folder;
  std::ofstream(folder / "a.png", std::ios::binary) << encode(3, 2, asked);
  const GDALDatasetUniquePtr file(GDALDataset::Open((folder / "a.png").c_str()));
  REQUIRE(file != nullptr);
  REQUIRE(file->GetRasterCount() == 4);
  std::vector<std::uint8_t> found(asked.size());
  REQUIRE(file->RasterIO(GF_Read, 0, 0, 3, 2, found.data(), 3, 2, GDT_Byte, 4, nullptr, 4, 12, 1,
                         nullptr) == CE_None);
  CHECK(found == asked);
}

TEST_CASE("the same pixels give the same PNG, with no time and no text in it") {
  const std::string bytes = encode(3, 2, six_pixels());
  CHECK(bytes == encode(3, 2, six_pixels()));
  for (const std::string& name : chunks(bytes)) {
    CAPTURE(name);
    CHECK((name == "IHDR" || name == "IDAT" || name == "IEND"));
  }
}

TEST_CASE("a single pixel is a picture; none, and a wrong number of bytes, are not") {
  CHECK(encode(1, 1, {1, 2, 3, 4}).size() > 33);
  CHECK_THROWS_AS(encode(0, 1, {}), std::invalid_argument);
  CHECK_THROWS_AS(encode(2, 1, {1, 2, 3, 4}), std::invalid_argument);
}

TEST_CASE("nothing of a picture stays in GDAL's memory") {
  (void)encode(3, 2, six_pixels());
  const CPLStringList left(VSIReadDir("/vsimem/"));
  CHECK(left.Count() == 0);
}
