// SPDX-License-Identifier: Apache-2.0
#include "report/tables/xml_text.hpp"

#include "tidelot/core/text.hpp"
#include "tidelot/report/report.hpp"

namespace tidelot {

std::string xml_text(std::string_view raw) { return html_escape(one_line(raw)); }

}  // namespace tidelot
