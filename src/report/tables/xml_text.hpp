// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

namespace tidelot {

/// Text for an element or attribute of XML 1.0, which has no place for control characters and
/// U+FFFE and U+FFFF, escaped or not: made safe by one_line.
[[nodiscard]] std::string xml_text(std::string_view raw);

}  // namespace tidelot
