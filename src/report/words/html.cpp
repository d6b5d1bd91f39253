// SPDX-License-Identifier: Apache-2.0
#include "report/words/html.hpp"

#include <fmt/format.h>

namespace tidelot::page {
namespace {

std::string head_row(std::span<const Column> columns) {
  std::string cells;
  for (const Column& column : columns) {
    // A heading that says nothing is none.
    cells += column.title.empty()
                 ? element("td", "")
                 : element(column.number ? "th scope=\"col\" class=\"n\"" : "th scope=\"col\"",
                           text(column.title));
  }
  return element("thead", element("tr", cells));
}

std::string body_row(std::span<const Column> columns, std::span<const std::string> row) {
  std::string cells;
  for (std::size_t i = 0; i < row.size(); ++i) {
    const std::string_view open = i == 0 ? "th scope=\"row\"" : "td";
    const bool number = i < columns.size() && columns[i].number;
    cells += element(number ? fmt::format("{} class=\"n\"", open) : std::string(open), row[i]);
  }
  return element("tr", cells) + "\n";
}

/// A frame that scrolls sideways; it can be reached with the keyboard.
std::string scroller(std::string_view label, std::string_view content) {
  return element(fmt::format("div class=\"scroll\" tabindex=\"0\" role=\"group\" aria-label=\"{}\"",
                             text(label)),
                 content);
}

}  // namespace

std::string element(std::string_view open, std::string_view content) {
  const std::string_view tag = open.substr(0, open.find(' '));
  return fmt::format("<{}>{}</{}>", open, content, tag);
}

std::string lines(std::span<const std::string> pieces) {
  std::string all;
  for (const std::string& piece : pieces) {
    all += piece;
    all += '\n';
  }
  return all;
}

std::string room(bool wide) {
  return element(wide ? "span class=\"line long\"" : "span class=\"line\"", "&nbsp;");
}

std::string list(std::span<const std::string> items) {
  std::string all;
  for (const std::string& item : items) {
    all += element("li", item);
  }
  return element("ul", all);
}

std::string html(const Table& table) {
  std::string rows;
  for (const std::vector<std::string>& row : table.rows) {
    rows += body_row(table.columns, row);
  }
  const std::string open =
      table.kind.empty() ? "table" : fmt::format("table class=\"{}\"", table.kind);
  return scroller(table.caption,
                  element(open, element("caption", element("span", text(table.caption))) +
                                    head_row(table.columns) + element("tbody", rows)));
}

std::string pairs(std::string_view caption,
                  std::span<const std::pair<std::string, std::string>> rows) {
  std::string body;
  for (const auto& [label, value] : rows) {
    body += element("tr", element("th scope=\"row\"", text(label)) + element("td", value));
  }
  return element("table class=\"pairs\"",
                 element("caption", text(caption)) + element("tbody", body));
}

}  // namespace tidelot::page
