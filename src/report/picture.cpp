// SPDX-License-Identifier: Apache-2.0
#include "report/picture.hpp"

#include <algorithm>

namespace tidelot::page {
namespace {

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

std::string run_lengths(const std::vector<std::uint8_t>& codes) {
  std::string pairs;
  for (std::size_t i = 0; i < codes.size();) {
    std::size_t end = i + 1;
    while (end < codes.size() && codes[end] == codes[i] && end - i < 255) {
      ++end;
    }
    pairs += static_cast<char>(end - i);
    pairs += static_cast<char>(codes[i]);
    i = end;
  }
  return pairs;
}

}  // namespace

bool texture_ink(int texture, int x, int y) {
  switch (texture) {
    case 1:
      return (x + y) % 8 < 2;
    case 2:
      return (x - y + 8000) % 8 < 2;
    case 3:
      return y % 7 < 2;
    case 4:
      return x % 7 < 2;
    case 5:
      return x % 6 < 2 && y % 6 < 2;
    case 6:
      return x % 9 < 1 || y % 9 < 1;
    case 7:
      return (x / 4 + y / 4) % 2 == 0;
    default:
      return false;
  }
}

std::string picture_url(const CodedMap& map, const Sampling& sampling, MapWriter& writer) {
  const int zoom = std::max(1, kMaxSide / std::max(sampling.cols, sampling.rows));
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

std::string packed(const std::vector<std::uint8_t>& codes) {
  const std::string runs = run_lengths(codes);
  const bool shorter = runs.size() < codes.size();
  std::string bytes(1, shorter ? '\1' : '\0');
  shorter ? bytes.append(runs) : bytes.append(codes.begin(), codes.end());
  return base64(bytes);
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
