// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>
#include <string>

#include "tidelot/layers/opener.hpp"

namespace tidelot::geoio {

/// The best operation that PROJ knows between two systems over an area, the same for every point;
/// a ballpark one only where it is allowed and there is no other; operations whose grid files are
/// missing are not considered. The network stays off. Throws Error(input): "<key>: ...".
[[nodiscard]] std::unique_ptr<Projector> make_projector(const std::string& from,
                                                        const std::string& to,
                                                        const std::string& key,
                                                        const LonLatBox& area,
                                                        bool allow_ballpark = false);

/// Is the box no narrowing at all?
[[nodiscard]] bool is_whole_earth(const LonLatBox& box);

}  // namespace tidelot::geoio
