// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "report/maps/coded_map.hpp"

namespace tidelot::page {

/// Textures repeat every 8 pixels. 1 and 2 lean right and left, 3 lies, 4 stands, 5 dots, 6
/// crosses, 7 chequers; 0 is plain.
inline constexpr int kTextures = 8;
/// The rows of a texture from the top; bit x of a row is the ink of the pixel at x.
[[nodiscard]] std::array<std::uint8_t, 8> texture_rows(int texture);
[[nodiscard]] bool texture_ink(int texture, int x, int y);

/// Pixels a side of a painted sample: large enough for the textures to read.
[[nodiscard]] int still_zoom(const Sampling& sampling);
/// The map as a data URL, every sample a square of zoom x zoom pixels.
[[nodiscard]] std::string picture_url(const CodedMap& map, const Sampling& sampling, int zoom,
                                      MapWriter& writer);
/// A swatch for the legend as a data URL.
[[nodiscard]] std::string swatch_url(const Style& style, MapWriter& writer);

/// The codes as a grey PNG in base64, a pixel a sample.
[[nodiscard]] std::string packed(const CodedMap& map, const Sampling& sampling, MapWriter& writer);
[[nodiscard]] std::string base64(std::string_view bytes);

}  // namespace tidelot::page
