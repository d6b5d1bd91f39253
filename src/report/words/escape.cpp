// SPDX-License-Identifier: Apache-2.0
#include "tidelot/report/report.hpp"

namespace tidelot {
namespace {

std::string_view html_entity(char c) {
  switch (c) {
    case '&':
      return "&amp;";
    case '<':
      return "&lt;";
    case '>':
      return "&gt;";
    case '"':
      return "&quot;";
    case '\'':
      return "&#39;";
    default:
      return {};
  }
}

std::string_view script_escape(char c) {
  switch (c) {
    case '<':
      return "\\u003c";
    case '>':
      return "\\u003e";
    case '&':
      return "\\u0026";
    default:
      return {};
  }
}

std::string replaced(std::string_view text, std::string_view (*replacement)(char)) {
  std::string result;
  result.reserve(text.size());
  for (const char c : text) {
    const std::string_view other = replacement(c);
    other.empty() ? result.push_back(c) : void(result.append(other));
  }
  return result;
}

}  // namespace

std::string html_escape(std::string_view text) { return replaced(text, html_entity); }

std::string script_json(std::string_view json) { return replaced(json, script_escape); }

}  // namespace tidelot
