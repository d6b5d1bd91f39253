// SPDX-License-Identifier: Apache-2.0
#include "cli/print.hpp"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>

#include "tidelot/core/error.hpp"

namespace tidelot::cli {
namespace {

[[noreturn]] void fail() {
  throw Error(Fault::output, std::string("stdout: cannot be written: ") + std::strerror(errno));
}

/// Columns a text takes on a terminal: code points, which is right for what tidelot prints.
std::size_t columns_of(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  }));
}

}  // namespace

void print(std::string_view text) {
  if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size()) {
    fail();
  }
}

void flush() {
  if (std::fflush(stdout) != 0) {
    fail();
  }
}

std::string table(const std::vector<std::vector<std::string>>& rows, std::size_t width) {
  std::vector<std::size_t> widths;
  for (const auto& row : rows) {
    widths.resize(std::max(widths.size(), row.size()), 0);
    for (std::size_t i = 0; i < row.size(); ++i) {
      widths[i] = std::max(widths[i], columns_of(row[i]));
    }
  }
  std::string out;
  for (const auto& row : rows) {
    std::size_t column = 0;
    for (std::size_t i = 0; i + 1 < row.size(); ++i) {
      out += row[i];
      out.append(widths[i] - columns_of(row[i]) + 2, ' ');
      column += widths[i] + 2;
    }
    if (!row.empty()) {
      out += width > column ? wrapped(row.back(), width, column, column) : row.back();
    }
    out += '\n';
  }
  return out;
}

std::string wrapped(std::string_view text, std::size_t width, std::size_t indent,
                    std::size_t begin) {
  std::string out;
  std::size_t column = begin;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    if (!out.empty() && column + 1 + columns_of(word) > width) {
      out += '\n' + std::string(indent, ' ');
      column = indent;
    } else if (!out.empty()) {
      out += ' ';
      ++column;
    }
    out += word;
    column += columns_of(word);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return out;
}

}  // namespace tidelot::cli
