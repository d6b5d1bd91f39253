// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "tidelot/layers/opener.hpp"

namespace tidelot::geoio {

/// Opener::read_scatter.
[[nodiscard]] std::optional<Scatter> read_scatter_file(const FileRef& file, const std::string& key,
                                                       const std::string& crs, const LonLatBox& box,
                                                       bool allow_ballpark);

/// Opener::triangulate.
[[nodiscard]] std::vector<std::array<std::uint32_t, 3>> delaunay(std::span<const XY> places);

}  // namespace tidelot::geoio
