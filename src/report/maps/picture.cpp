// SPDX-License-Identifier: Apache-2.0
#include "report/maps/picture.hpp"

#include <algorithm>

namespace tidelot::page {
namespace {

constexpr int kStillSide = 700;
constexpr int kSwatchWidth = 44;
constexpr int kSwatchHeight = 22;

void paint(std::uint8_t* pixel, const Style& style, int x, int y) {
  if (style.clear) {
    return;
  }
  const Rgb colour = texture_ink(style.texture, x, y) ? style.ink : style.base;
  pixel[0] = colour.r;
  pixel[1] = colour.g;
  pixel[2] = colour.b;
  pixel[3] = 255;
}

std::string data_url(int width, int height, const std::vector<std::uint8_t>& rgba,
                     MapWriter& writer) {
  return "data:image/png;base64," + base64(writer.png(width, height, rgba));
}

}  // namespace

std::array<std::uint8_t, 8> texture_rows(int texture) {
  switch (texture) {
    case 1:
      return {0xC0, 0x60, 0x30, 0x18, 0x0C, 0x06, 0x03, 0x81};
    case 2:
      return {0x03, 0x06, 0x0C, 0x18, 0x30, 0x60, 0xC0, 0x81};
    case 3:
      return {0xFF, 0xFF, 0, 0, 0, 0, 0, 0};
    case 4:
      return {0x03, 0x03, 0x03, 0x03, 0x03, 0x03, 0x03, 0x03};
    case 5:
      return {0x03, 0x03, 0, 0, 0x30, 0x30, 0, 0};
    case 6:
      return {0xFF, 0x01, 0x01, 0x01, 0x01, 0x01, 0x01, 0x01};
    case 7:
      return {0x0F, 0x0F, 0x0F, 0x0F, 0xF0, 0xF0, 0xF0, 0xF0};
    default:
      return {};
  }
}

bool texture_ink(int texture, int x, int y) {
  return (texture_rows(texture)[static_cast<std::size_t>(y & 7)] >> (x & 7) & 1) != 0;
}

int still_zoom(const Sampling& sampling) {
  return std::max(1, kStillSide / std::max(sampling.cols, sampling.rows));
}

std::string picture_url(const CodedMap& map, const Sampling& sampling, int zoom,
                        MapWriter& writer) {
  const int width = sampling.cols * zoom;
  const int height = sampling.rows * zoom;
  std::vector<std::uint8_t> rgba(4 * static_cast<std::size_t>(width) *
                                 static_cast<std::size_t>(height));
  std::uint8_t* pixel = rgba.data();
  for (int y = 0; y < height; ++y) {
    const auto row = static_cast<std::size_t>(y / zoom) * static_cast<std::size_t>(sampling.cols);
    for (int x = 0; x < width; ++x, pixel += 4) {
      paint(pixel, map.styles[map.codes[row + static_cast<std::size_t>(x / zoom)]], x, y);
    }
  }
  return data_url(width, height, rgba, writer);
}

std::string swatch_url(const Style& style, MapWriter& writer) {
  std::vector<std::uint8_t> rgba(std::size_t{4} * kSwatchWidth * kSwatchHeight);
  std::uint8_t* pixel = rgba.data();
  for (int y = 0; y < kSwatchHeight; ++y) {
    for (int x = 0; x < kSwatchWidth; ++x, pixel += 4) {
      paint(pixel, style, x, y);
    }
  }
  return data_url(kSwatchWidth, kSwatchHeight, rgba, writer);
}

std::string packed(const CodedMap& map, const Sampling& sampling, MapWriter& writer) {
  return base64(writer.png(sampling.cols, sampling.rows, map.codes));
}

std::string base64(std::string_view bytes) {
  constexpr std::string_view kLetters =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string coded;
  coded.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const std::size_t left = std::min<std::size_t>(3, bytes.size() - i);
    std::uint32_t group = 0;
    for (std::size_t k = 0; k < 3; ++k) {
      group = group << 8 | (k < left ? static_cast<unsigned char>(bytes[i + k]) : 0U);
    }
    for (std::size_t k = 0; k < 4; ++k) {
      coded += k <= left ? kLetters[group >> (18 - 6 * k) & 63U] : '=';
    }
  }
  return coded;
}

}  // namespace tidelot::page
