// SPDX-License-Identifier: Apache-2.0
#include "text_points.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <fstream>
#include <limits>
#include <optional>
#include <vector>

#include "degrees.hpp"
#include "projector.hpp"
#include "stated_reference.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

constexpr std::size_t kLongestLine = 65536;
constexpr std::size_t kChunk = 65536;  // points projected at a time

using Words = std::vector<std::string_view>;

std::string_view trimmed(std::string_view text) {
  const auto is_blank = [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '"'; };
  while (!text.empty() && is_blank(text.front())) {
    text.remove_prefix(1);
  }
  while (!text.empty() && is_blank(text.back())) {
    text.remove_suffix(1);
  }
  return text;
}

/// Parted by semicolons or commas where there are any, else by blanks.
Words split(std::string_view line) {
  const bool semicolons = line.find(';') != std::string_view::npos;
  const bool commas = !semicolons && line.find(',') != std::string_view::npos;
  Words words;
  if (semicolons || commas) {
    for (std::size_t from = 0; from <= line.size();) {
      const std::size_t to = std::min(line.size(), line.find(semicolons ? ';' : ',', from));
      words.push_back(trimmed(line.substr(from, to - from)));
      from = to + 1;
    }
    return words;
  }
  for (std::size_t at = line.find_first_not_of(" \t"); at != std::string_view::npos;) {
    const std::size_t to = std::min(line.size(), line.find_first_of(" \t", at));
    words.push_back(trimmed(line.substr(at, to - at)));
    at = line.find_first_not_of(" \t", to);
  }
  return words;
}

std::optional<double> number(std::string_view word) {
  double value = 0.0;
  const char* const from = word.data() + (word.starts_with('+') ? 1 : 0);
  const auto [end, error] = std::from_chars(from, word.data() + word.size(), value);
  return error == std::errc{} && end == word.data() + word.size() ? std::optional(value)
                                                                  : std::nullopt;
}

/// Which words of a line are x, y and the value.
struct Columns {
  std::array<std::size_t, 3> at{0, 1, 2};
  std::string of = "the third column";
};

/// "|x|lon|" holds "lon".
bool is_one_of(std::string_view names, std::string_view word) {
  return names.find("|" + lower_ascii(word) + "|") != std::string_view::npos;
}

Columns columns_of(const InputFile& input, const Words& names) {
  constexpr std::array<std::string_view, 3> kKnown{
      "|x|lon|long|longitude|easting|", "|y|lat|latitude|northing|", "|z|depth|elevation|"};
  Columns columns;
  for (std::size_t i = 0; i < 3; ++i) {
    const bool planned = i == 2 && !input.file.field.empty();
    const auto fits = [&](std::string_view word) {
      return planned ? word == input.file.field : is_one_of(kKnown[i], word);
    };
    const auto found = std::find_if(names.begin(), names.end(), fits);
    if (found == names.end() || std::find_if(found + 1, names.end(), fits) != names.end()) {
      throw input.error(
          fmt::format("its first line names the columns {}, and {} is {}; {}",
                      foreign_text(fmt::format("{}", fmt::join(names, ", "))),
                      planned ? fmt::format("\"{}\"", foreign_text(input.file.field))
                              : std::array{"x (lon, easting)", "y (lat, northing)",
                                           "the depth (depth, z, elevation)"}[i],
                      found == names.end() ? "none of them" : "more than one of them",
                      i == 2 ? "set field to the one that holds the depth" : "rename one"));
    }
    columns.at[i] = static_cast<std::size_t>(found - names.begin());
  }
  columns.of = fmt::format("column \"{}\"", foreign_text(names[columns.at[2]]));
  return columns;
}

/// Everything that the lines hold, in the file's own system.
class TextReader {
 public:
  explicit TextReader(const InputFile& input) : input_(input), stream_(input.path) {}

  /// Fills up to a chunk; false at the end of the file.
  bool next(std::vector<XY>& places, std::vector<double>& values) {
    places.clear();
    values.clear();
    std::string line;
    while (places.size() < kChunk && std::getline(stream_, line)) {
      ++line_;
      if (line.size() > kLongestLine) {
        throw input_.error(fmt::format("line {} is too long for a line of x, y and z", line_));
      }
      const std::string_view text = trimmed(line);
      if (!text.empty() && text.front() != '#') {
        read(split(text), places, values);
      }
    }
    if (stream_.bad()) {
      throw input_.error("cannot be read to its end");
    }
    return !places.empty();
  }

  [[nodiscard]] std::size_t blank() const { return blank_; }
  [[nodiscard]] const std::string& of() const { return columns_.of; }

 private:
  void read(const Words& words, std::vector<XY>& places, std::vector<double>& values) {
    if (!begun_) {
      begun_ = true;
      const bool names = std::none_of(words.begin(), words.end(),
                                      [](std::string_view w) { return bool(number(w)); });
      if (names) {
        columns_ = columns_of(input_, words);
        return;
      }
      if (!input_.file.field.empty()) {
        throw input_.error("its first line names no columns, so field means nothing; take it out");
      }
    }
    add(words, places, values);
  }

  void add(const Words& words, std::vector<XY>& places, std::vector<double>& values) {
    const auto word = [&](std::size_t i) {
      return columns_.at[i] < words.size() ? words[columns_.at[i]] : std::string_view();
    };
    const auto x = number(word(0));
    const auto y = number(word(1));
    const auto z = number(word(2));
    if (x && y && (word(2).empty() || (z && !std::isfinite(*z)))) {
      ++blank_;
    } else if (x && y && z && std::isfinite(*x) && std::isfinite(*y)) {
      places.push_back({*x, *y});
      values.push_back(*z);
    } else {
      throw input_.error(
          fmt::format("line {} does not hold x, y and the depth as numbers (with a "
                      "point, not a comma); correct or remove it",
                      line_));
    }
  }

  const InputFile& input_;
  std::ifstream stream_;
  Columns columns_;
  bool begun_ = false;
  std::size_t line_ = 0;
  std::size_t blank_ = 0;
};

StatedReference reference_of(const InputFile& input) {
  auto stated = stated_reference(input, nullptr);
  if (!stated) {
    throw input.error("is text and states no reference system; write crs = \"EPSG:n\" in the plan");
  }
  return *std::move(stated);
}

}  // namespace

bool is_text_of_points(const InputFile& input) {
  const std::string path = lower_ascii(input.path);
  return path.ends_with(".xyz") || path.ends_with(".csv") || path.ends_with(".txt") ||
         path.ends_with(".dat");
}

Scatter read_text_points(const InputFile& input, const std::string& crs, const LonLatBox& box) {
  const StatedReference stated = reference_of(input);
  const std::string own = reference_text(stated.reference);
  const auto to_grid = make_projector(own, crs, input.key, box, input.allow_ballpark);
  const auto to_degrees = make_projector(own, "EPSG:4326", input.key, box, input.allow_ballpark);
  Scatter scatter;
  TextReader reader(input);
  DegreeBox covered;
  std::size_t all = 0;
  std::vector<XY> places;
  std::vector<double> values;
  while (reader.next(places, values)) {
    all += places.size();
    std::vector<XY> degrees = places;
    to_degrees->forward(degrees);
    to_grid->forward(places);
    for (std::size_t i = 0; i < places.size(); ++i) {
      covered.add(degrees[i]);
      if (holds(box, degrees[i]) && std::isfinite(places[i].x)) {
        scatter.places.push_back(places[i]);
        scatter.values.push_back(values[i]);
      }
    }
  }
  scatter.kind = Scatter::Kind::points;
  scatter.what = fmt::format("text, {} points, {} near the area", all, scatter.places.size());
  scatter.of = reader.of();
  scatter.crs_name = reference_name(stated.reference);
  scatter.crs_basis = stated.basis;
  scatter.operation = to_grid->operation();
  scatter.box = covered.box();
  if (reader.blank() > 0) {
    scatter.warnings.push_back(
        fmt::format("{} lines without a value are left out", reader.blank()));
  }
  return scatter;
}

}  // namespace tidelot::geoio
