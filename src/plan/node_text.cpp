// SPDX-License-Identifier: Apache-2.0
#include "plan/node_text.hpp"

#include <fmt/format.h>

#include <cmath>

#include "tidelot/core/text.hpp"

namespace tidelot::planfile {
namespace {

constexpr std::size_t kShownBytes = 60;

std::string json_of_array(const toml::array& array) {
  std::string out;
  for (const toml::node& node : array) {
    out += (out.empty() ? "" : ", ") + json_of(node);
  }
  return "[" + out + "]";
}

std::string json_of_table(const toml::table& table) {
  std::string out;
  for (const auto& [key, node] : table) {
    out += (out.empty() ? "" : ", ") + json_string(key.str()) + ": " + json_of(node);
  }
  return "{" + out + "}";
}

/// Cut to kShownBytes, never within a UTF-8 sequence.
std::string cut(std::string text) {
  if (text.size() <= kShownBytes) {
    return text;
  }
  std::size_t end = kShownBytes;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) {
    --end;
  }
  return text.substr(0, end) + "...";
}

}  // namespace

std::string json_string(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (static_cast<unsigned char>(c) < 0x20) {
      out += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
    } else {
      out += c;
    }
  }
  return out + '"';
}

std::string json_of(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::string:
      return json_string(**node.as_string());
    case toml::node_type::integer:
      return fmt::format("{}", **node.as_integer());
    case toml::node_type::floating_point:
      return shortest(**node.as_floating_point());
    case toml::node_type::array:
      return json_of_array(*node.as_array());
    case toml::node_type::table:
      return json_of_table(*node.as_table());
    case toml::node_type::boolean:
      return **node.as_boolean() ? "true" : "false";
    default:
      return "null";
  }
}

std::string shown(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::table:
      return "a table";
    case toml::node_type::date:
    case toml::node_type::time:
    case toml::node_type::date_time:
      return "a TOML date or time";
    default:
      return cut(json_of(node));
  }
}

std::optional<double> finite_number(const toml::node& node) {
  if (const auto* integer = node.as_integer()) {
    return static_cast<double>(**integer);
  }
  const auto* number = node.as_floating_point();
  return number && std::isfinite(**number) ? std::optional(**number) : std::nullopt;
}

}  // namespace tidelot::planfile
