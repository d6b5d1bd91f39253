// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

#include "report/coded_map.hpp"

namespace tidelot::page {

/// Does a texture put ink on this pixel? 1 and 2 lean right and left, 3 lies, 4 stands, 5 dots,
/// 6 crosses, 7 chequers; 0 never.
[[nodiscard]] bool texture_ink(int texture, int x, int y);

/// The map as a data URL: every sample is a square of pixels large enough for the textures to read.
[[nodiscard]] std::string picture_url(const CodedMap& map, const Sampling& sampling,
                                      MapWriter& writer);
/// A swatch for the legend as a data URL.
[[nodiscard]] std::string swatch_url(const Style& style, MapWriter& writer);

/// The codes as base64: a first byte 0 and the codes, or 1 and pairs of run length and code,
/// whichever is shorter.
[[nodiscard]] std::string packed(const std::vector<std::uint8_t>& codes);
[[nodiscard]] std::string base64(std::string_view bytes);

}  // namespace tidelot::page
