// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/sparkline.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

namespace tidelot {
namespace {

constexpr std::array<std::string_view, 8> kBlocks{"\u2581", "\u2582", "\u2583", "\u2584",
                                                  "\u2585", "\u2586", "\u2587", "\u2588"};
constexpr std::array<std::string_view, 8> kAscii{".", ":", "-", "=", "+", "*", "#", "@"};

/// Mean of the known values; NaN without one.
double mean(std::span<const double> values) {
  double sum = 0.0;
  int known = 0;
  for (const double value : values) {
    sum += std::isnan(value) ? 0.0 : value;
    known += std::isnan(value) ? 0 : 1;
  }
  return known > 0 ? sum / known : std::numeric_limits<double>::quiet_NaN();
}

std::vector<double> averaged(std::span<const double> values, std::size_t columns) {
  const std::size_t parts = std::min(columns, values.size());
  std::vector<double> out;
  for (std::size_t i = 0; i < parts; ++i) {
    const std::size_t from = i * values.size() / parts;
    out.push_back(mean(values.subspan(from, (i + 1) * values.size() / parts - from)));
  }
  return out;
}

bool says_utf8(std::string_view name) {
  std::string plain;
  for (const char c : name) {
    if (c != '-') {
      plain += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
  }
  return plain.find("utf8") != std::string::npos;
}

}  // namespace

std::string sparkline(std::span<const double> values, std::size_t columns, Glyphs glyphs) {
  const std::vector<double> points = averaged(values, columns);
  double low = std::numeric_limits<double>::infinity();
  double high = -low;
  for (const double point : points) {
    low = std::fmin(low, point);
    high = std::fmax(high, point);
  }
  const auto& steps = glyphs == Glyphs::utf8 ? kBlocks : kAscii;
  std::string line;
  for (const double point : points) {
    const double place = high > low ? (point - low) / (high - low) : 0.0;
    line += std::isnan(point)
                ? " "
                : steps[std::min(steps.size() - 1,
                                 static_cast<std::size_t>(place * double(steps.size())))];
  }
  return line;
}

Glyphs glyphs_of(std::string_view lc_all, std::string_view lc_ctype, std::string_view lang) {
  const std::string_view name = !lc_all.empty() ? lc_all : !lc_ctype.empty() ? lc_ctype : lang;
  return says_utf8(name) ? Glyphs::utf8 : Glyphs::ascii;
}

}  // namespace tidelot
