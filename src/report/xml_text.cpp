// SPDX-License-Identifier: Apache-2.0
#include "report/xml_text.hpp"

#include <algorithm>

#include "tidelot/report/report.hpp"

namespace tidelot {

std::string xml_text(std::string_view raw) {
  std::string clean(raw);
  std::replace_if(
      clean.begin(), clean.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20; }, ' ');
  return html_escape(clean);
}

}  // namespace tidelot
