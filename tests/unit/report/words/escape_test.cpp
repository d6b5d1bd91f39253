// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "report/tables/csv_cells.hpp"
#include "report/tables/xml_text.hpp"
#include "tidelot/report/report.hpp"

namespace tidelot {
namespace {

TEST_CASE("the five characters of HTML are escaped and nothing else", "[report]") {
  CHECK(html_escape("<script>alert(\"x\" & 'y')</script>") ==
        "&lt;script&gt;alert(&quot;x&quot; &amp; &#39;y&#39;)&lt;/script&gt;");
  CHECK(html_escape("") == "");
  CHECK(html_escape("Bæ \xF0\x9F\x8C\x8A = +1") == "Bæ \xF0\x9F\x8C\x8A = +1");
  CHECK(html_escape("&amp;") == "&amp;amp;");
}

TEST_CASE("JSON for a script element cannot end it, and reads back the same", "[report]") {
  const nlohmann::json value{{"name", "</script><!-- & -->"}};
  const std::string safe = script_json(value.dump());
  CHECK(safe.find_first_of("<>&") == std::string::npos);
  CHECK(safe.find("\\u003c/script\\u003e") != std::string::npos);
  CHECK(nlohmann::json::parse(safe) == value);
}

TEST_CASE("text for XML holds no character that XML has not", "[report]") {
  CHECK(xml_text("a\x01<b>\xEF\xBF\xBE\xEF\xBF\xBF") == "a?&lt;b&gt;??");
}

TEST_CASE("a cell is no formula, behind blanks neither", "[report]") {
  CHECK(cells::text("=1+1") == "'=1+1");
  CHECK(cells::text(" =1+1") == "' =1+1");
  CHECK(cells::text(" \t=1+1") == "' \t=1+1");
  CHECK(cells::text(" a=1, \"b\"") == "\" a=1, \"\"b\"\"\"");
  CHECK(cells::text(" ") == " ");
}

}  // namespace
}  // namespace tidelot
