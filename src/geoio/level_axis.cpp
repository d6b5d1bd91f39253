// SPDX-License-Identifier: Apache-2.0
#include "level_axis.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

bool has(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

bool is_one_of(const std::string& word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

/// Metres in a unit of length; of decibars, which are said.
std::optional<double> metres_in(const std::string& unit) {
  constexpr std::array<std::pair<std::string_view, double>, 5> kUnits{{
      {" m meter meters metre metres ", 1.0},
      {" cm centimeter centimeters centimetre centimetres ", 0.01},
      {" km kilometer kilometers kilometre kilometres ", 1000.0},
      {" ft foot feet ", 0.3048},
      {" dbar decibar decibars ", 1.0},
  }};
  const std::string padded = fmt::format(" {} ", lower_ascii(unit));
  for (const auto& [names, metres] : kUnits) {
    if (!unit.empty() && has(names, padded)) {
      return metres;
    }
  }
  return std::nullopt;
}

bool is_pressure(const std::string& unit) {
  return is_one_of(lower_ascii(unit), {"dbar", "decibar", "decibars"});
}

bool follows_the_bed(const LevelWords& words) {
  const std::string name = lower_ascii(words.standard_name);
  return words.formula || has(name, "sigma") || has(name, "s_coordinate") || has(name, "hybrid") ||
         has(lower_ascii(words.name), "sigma") ||
         is_one_of(lower_ascii(words.name), {"s_rho", "s_w"});
}

/// +1 where values are depths, -1 where they are heights, 0 where nothing says.
int way_down(const LevelWords& words) {
  const std::string positive = lower_ascii(words.positive);
  if (positive == "down" || positive == "up") {
    return positive == "down" ? 1 : -1;
  }
  const std::string standard = lower_ascii(words.standard_name);
  if (is_pressure(words.units) || standard == "depth" || has(lower_ascii(words.name), "depth")) {
    return 1;
  }
  return standard == "height" || standard == "altitude" ? -1 : 0;
}

}  // namespace

bool is_vertical_axis(const LevelWords& words) {
  const std::string name = lower_ascii(words.name);
  const std::string standard = lower_ascii(words.standard_name);
  return !words.positive.empty() || words.axis == "Z" || follows_the_bed(words) ||
         is_pressure(words.units) || is_one_of(standard, {"depth", "height", "altitude"}) ||
         has(standard, "model_level_number") || has(name, "depth") || has(name, "lev") ||
         is_one_of(name, {"z", "layer", "k", "siglay"});
}

std::optional<LevelUnit> level_unit(const LevelWords& words) {
  const auto metres = metres_in(words.units);
  const int down = way_down(words);
  if (!metres || down == 0 || follows_the_bed(words)) {
    return std::nullopt;
  }
  return LevelUnit{*metres * down,
                   is_pressure(words.units) ? "its decibars are taken for metres of depth" : ""};
}

std::string trouble_with(const LevelWords& words) {
  const std::string& name = words.name;
  if (follows_the_bed(words)) {
    return fmt::format(
        "its levels \"{}\" follow the bed (sigma or a mixture), so that one lies at another depth "
        "in every place; make a file at the depth of the line first",
        name);
  }
  if (!metres_in(words.units)) {
    return fmt::format(
        "its levels \"{}\" are counted in \"{}\", not in metres of depth; make a file at the depth "
        "of the line, or give the axis its depths and their unit",
        name, words.units);
  }
  if (way_down(words) == 0) {
    return fmt::format(
        "its levels \"{0}\" do not say which way is up; add the attribute to a copy: ncatted -a "
        "positive,{0},c,c,down",
        name);
  }
  return "";
}

}  // namespace tidelot::geoio
