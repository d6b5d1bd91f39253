// SPDX-License-Identifier: Apache-2.0
#include "report/maps/picture.hpp"

#include <catch2/catch.hpp>

#include "support/report_fixture.hpp"

namespace tidelot::page {
namespace {

TEST_CASE("base64 by the vectors of RFC 4648, section 10", "[report]") {
  CHECK(base64("") == "");
  CHECK(base64("f") == "Zg==");
  CHECK(base64("fo") == "Zm8=");
  CHECK(base64("foo") == "Zm9v");
  CHECK(base64("foobar") == "Zm9vYmFy");
}

TEST_CASE("the codes are a grey picture, a pixel a sample", "[report]") {
  const Grid grid{0, 0, 10.0, 2, 2, ""};
  CodedMap map;
  map.codes = {1, 2, 3, 255};
  test::PngTwin writer;
  CHECK(packed(map, sampling_of(grid), writer) == base64(test::PngTwin::kStart));
  REQUIRE(writer.pictures.size() == 1);
  CHECK(writer.pictures[0].width == 2);
  CHECK(writer.pictures[0].height == 2);
  CHECK(writer.pictures[0].rgba == map.codes);
}

TEST_CASE("textures repeat every eight pixels", "[report]") {
  for (int texture = 0; texture < kTextures; ++texture) {
    for (int y = 0; y < 8; ++y) {
      for (int x = 0; x < 8; ++x) {
        INFO(texture << " at " << x << ", " << y);
        CHECK(texture_ink(texture, x, y) == texture_ink(texture, x + 8, y + 16));
      }
    }
  }
  CHECK(texture_ink(3, 5, 0));  // lies: a row of ink
  CHECK_FALSE(texture_ink(3, 5, 2));
  CHECK(texture_ink(4, 0, 5));  // stands: a column
  CHECK_FALSE(texture_ink(4, 2, 5));
}

TEST_CASE("every texture has ink and ground", "[report]") {
  for (int texture = 1; texture <= 7; ++texture) {
    int ink = 0;
    for (int y = 0; y < 72; ++y) {
      for (int x = 0; x < 72; ++x) {
        ink += texture_ink(texture, x, y) ? 1 : 0;
      }
    }
    INFO(texture);
    CHECK(ink > 72 * 72 / 20);
    CHECK(ink < 72 * 72 * 3 / 4);
  }
  CHECK_FALSE(texture_ink(0, 0, 0));
}

TEST_CASE("a sample is a square of pixels in its own colour", "[report]") {
  Grid grid{0, 0, 10.0, 2, 1, ""};
  const Sampling sampling = sampling_of(grid);
  CodedMap map;
  map.codes = {10, 20};
  map.styles[10].base = {1, 2, 3};
  map.styles[20].clear = true;
  test::PngTwin writer;
  (void)picture_url(map, sampling, still_zoom(sampling), writer);
  REQUIRE(writer.pictures.size() == 1);
  const auto& picture = writer.pictures[0];
  CHECK(picture.width == 700);
  CHECK(picture.height == 350);
  CHECK(std::vector<std::uint8_t>(picture.rgba.begin(), picture.rgba.begin() + 4) ==
        std::vector<std::uint8_t>{1, 2, 3, 255});
  CHECK(picture.rgba[4 * 350 - 1] == 255);
  CHECK(picture.rgba[4 * 350 + 3] == 0);
}

}  // namespace
}  // namespace tidelot::page
