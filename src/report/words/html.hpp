// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "tidelot/report/report.hpp"

/// Small functions that build HTML and SVG. Content is markup already; text from outside goes
/// through text() first.
namespace tidelot::page {

/// html_escape with a shorter name, for the many places that need it.
[[nodiscard]] inline std::string text(std::string_view raw) { return html_escape(raw); }

/// element("p class=\"note\"", "Hello") -> <p class="note">Hello</p>
[[nodiscard]] std::string element(std::string_view open, std::string_view content);

/// Pieces one after the other, each on its line.
[[nodiscard]] std::string lines(std::span<const std::string> pieces);

/// Room to write in, in a line.
[[nodiscard]] std::string room(bool wide = false);

/// An unordered list of items.
[[nodiscard]] std::string list(std::span<const std::string> items);

struct Column {
  std::string title;
  bool number = false;  ///< set flush right
};

/// A table that scrolls inside its frame where the page is narrow; the first cell of a row heads
/// it.
struct Table {
  std::string caption;  ///< plain text
  std::vector<Column> columns;
  std::vector<std::vector<std::string>> rows;
  std::string kind;  ///< class of the table, "" when none
};
[[nodiscard]] std::string html(const Table& table);

/// Two columns of label and value.
[[nodiscard]] std::string pairs(std::string_view caption,
                                std::span<const std::pair<std::string, std::string>> rows);

}  // namespace tidelot::page
