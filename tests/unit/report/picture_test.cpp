// SPDX-License-Identifier: Apache-2.0
#include "report/picture.hpp"

#include <catch2/catch.hpp>

#include "support/report_fixture.hpp"

namespace tidelot::page {
namespace {

std::vector<std::uint8_t> decoded(const std::string& text) {
  const std::string letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::vector<std::uint8_t> bytes;
  unsigned bits = 0;
  int count = 0;
  for (const char c : text.substr(0, text.find('='))) {
    bits = bits << 6 | static_cast<unsigned>(letters.find(c));
    count += 6;
    if (count >= 8) {
      count -= 8;
      bytes.push_back(static_cast<std::uint8_t>(bits >> count));
    }
  }
  return bytes;
}

TEST_CASE("base64 by the vectors of RFC 4648, section 10", "[report]") {
  CHECK(base64("") == "");
  CHECK(base64("f") == "Zg==");
  CHECK(base64("fo") == "Zm8=");
  CHECK(base64("foo") == "Zm9v");
  CHECK(base64("foobar") == "Zm9vYmFy");
}

TEST_CASE("codes are packed whichever way is shorter", "[report]") {
  const std::vector<std::uint8_t> mixed{1, 2, 3, 4};
  CHECK(decoded(packed(mixed)) == std::vector<std::uint8_t>{0, 1, 2, 3, 4});
  std::vector<std::uint8_t> runs(300, 7);
  runs.push_back(9);
  CHECK(decoded(packed(runs)) == std::vector<std::uint8_t>{1, 255, 7, 45, 7, 1, 9});
  CHECK(decoded(packed({})) == std::vector<std::uint8_t>{0});
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
  (void)picture_url(map, sampling, writer);
  REQUIRE(writer.pictures.size() == 1);
  const auto& picture = writer.pictures[0];
  CHECK(picture.width == 1200);
  CHECK(picture.height == 600);
  CHECK(std::vector<std::uint8_t>(picture.rgba.begin(), picture.rgba.begin() + 4) ==
        std::vector<std::uint8_t>{1, 2, 3, 255});
  CHECK(picture.rgba[4 * 600 - 1] == 255);
  CHECK(picture.rgba[4 * 600 + 3] == 0);
}

}  // namespace
}  // namespace tidelot::page
