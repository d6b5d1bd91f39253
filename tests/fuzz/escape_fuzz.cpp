// SPDX-License-Identifier: Apache-2.0
// Bytes as a text from a plan or a file on its way into what a run leaves: HTML, XML, JSON, a
// script element, a cell of a table, a message. Nothing in it may be taken for markup, and where
// the text can be had back it is the same.
#include <array>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>

#include "plan/node_text.hpp"
#include "promise.hpp"
#include "report/tables/csv_cells.hpp"
#include "report/tables/xml_text.hpp"
#include "tidelot/core/csv.hpp"
#include "tidelot/report/report.hpp"

namespace {

using namespace tidelot;
using fuzz::promise;
using Json = nlohmann::ordered_json;

constexpr std::array<std::pair<std::string_view, char>, 5> kEntities{
    {{"&amp;", '&'}, {"&lt;", '<'}, {"&gt;", '>'}, {"&quot;", '"'}, {"&#39;", '\''}}};

/// What a browser makes of escaped text.
std::string unescaped(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    promise(std::string_view("<>\"'").find(text.front()) == std::string_view::npos,
            "escaped text has no bare <, >, \" or '");
    std::size_t length = 1;
    char meant = text.front();
    for (const auto& [entity, c] : kEntities) {
      if (text.starts_with(entity)) {
        length = entity.size();
        meant = c;
      }
    }
    promise(text.front() != '&' || length > 1, "escaped text has no bare &");
    out += meant;
    text.remove_prefix(length);
  }
  return out;
}

/// The characters that XML 1.0 has (its section 2.2).
void promise_xml(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = utf8_length(text);
    promise(length > 0, "XML is UTF-8");
    const char32_t c = code_point(text.substr(0, length));
    promise(c == '\t' || c == '\n' || c == '\r' || (c >= 0x20 && c != 0xFFFE && c != 0xFFFF),
            "XML holds only characters that it has");
    text.remove_prefix(length);
  }
}

void check_json(const std::string& text) {
  const std::string json = Json(text).dump(-1, ' ', false, Json::error_handler_t::replace);
  const std::string script = script_json(json);
  promise(script.find_first_of("<>&") == std::string::npos, "a script holds no markup");
  promise(Json::parse(script) == Json::parse(json), "a script's text is the text");
  if (is_utf8(text)) {
    promise(Json::parse(script).get<std::string>() == text, "JSON gives the text back");
    promise(Json::parse(planfile::json_string(text)).get<std::string>() == text,
            "a plan's JSON gives the text back");
  }
}

std::string without_blanks_at_ends(const std::string& text) {
  const std::size_t first = text.find_first_not_of(" \t");
  return first == std::string::npos ? ""
                                    : text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

void check_cell(const std::string& text) {
  const std::string cell = cells::text(text);
  promise(cell.empty() || std::string_view("=+-@").find(cell.front()) == std::string_view::npos,
          "no cell begins as a formula");
  if (!is_utf8(text) || text.find('\0') != std::string::npos) {
    return;  // no program reads such a table
  }
  const CsvTable table = parse_csv("a,b\n1," + cell + "\n");
  const std::string read = table.rows.at(0).cells.at(1);
  promise(table.rows.size() == 1 &&
              std::string_view("=+-@").find(read.empty() ? 'a' : read[0]) == std::string_view::npos,
          "a cell that is read is no formula");
  const std::string wanted = without_blanks_at_ends(text);
  promise(read == wanted ||
              (read.starts_with('\'') && without_blanks_at_ends(read.substr(1)) == wanted),
          "a cell gives the text back, but for an apostrophe before a formula");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t count) {
  const std::string text(fuzz::text_of(bytes, count));
  promise(unescaped(html_escape(text)) == text, "HTML gives the text back");
  const std::string xml = xml_text(text);
  promise_xml(xml);
  static_cast<void>(unescaped(xml));
  check_json(text);
  check_cell(text);
  if (!text.empty()) {
    fuzz::promise_one_line(one_line(text));
    fuzz::promise_one_line(foreign_text(text));
    promise(foreign_text(text).size() <= 303, "foreign text is cut");
  }
  return 0;
}
