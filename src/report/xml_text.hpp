// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

namespace tidelot {

/// Text for an element or attribute of XML 1.0, which has no place for control characters, escaped
/// or not: they become spaces.
[[nodiscard]] std::string xml_text(std::string_view raw);

}  // namespace tidelot
