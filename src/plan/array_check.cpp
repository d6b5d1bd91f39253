// SPDX-License-Identifier: Apache-2.0
#include "plan/array_check.hpp"

#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "plan/node_text.hpp"
#include "tidelot/core/calendar.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::planfile {
namespace {

using Checked = std::optional<Problem>;

/// Far beyond any measure; keeps differences of x finite in the curve's arithmetic.
constexpr double kMaxX = 1e9;
/// Wider areas are another job: a projected system no longer holds true to scale.
constexpr double kMaxDegrees = 20.0;

/// The numbers of an array of a fixed size; problem is set where it is not one.
std::vector<double> numbers(const std::string& name, const toml::node& value, std::size_t count,
                            const std::string& expected, Checked& problem) {
  std::vector<double> out;
  const toml::array* array = value.as_array();
  if (!array || array->size() != count) {
    problem = Problem{value.source().begin,
                      fmt::format("{} must be {}, not {}", name, expected,
                                  array ? fmt::format("{} values", array->size()) : shown(value))};
    return out;
  }
  for (const toml::node& node : *array) {
    const auto number = finite_number(node);
    if (!number) {
      problem = Problem{node.source().begin, fmt::format("{} must be {}; {} is not a number", name,
                                                         expected, shown(node))};
      return out;
    }
    out.push_back(*number);
  }
  return out;
}

Checked check_twelve(const Key& key, const std::string& name, const toml::node& value) {
  Checked problem;
  const auto values =
      numbers(name, value, kMonths,
              key.kind == Kind::twelve ? "twelve numbers, January to December"
                                       : "one number, or twelve, January to December",
              problem);
  for (std::size_t i = 0; i < values.size() && !problem; ++i) {
    if (values[i] < key.low || values[i] > key.high) {
      problem = Problem{
          value.as_array()->get(i)->source().begin,
          fmt::format("{} must be from {} to {}, not {} ({})", name, shortest(key.low),
                      shortest(key.high), shortest(values[i]), month_name(static_cast<int>(i)))};
    }
  }
  return problem;
}

std::string place_fault(double lon, double lat) {
  if (std::abs(lat) > 90.0) {
    return fmt::format("latitude {} is not within -90 to 90{}", shortest(lat),
                       std::abs(lat) <= 180.0 && std::abs(lon) <= 90.0
                           ? "; longitude comes before latitude"
                           : "; give degrees, WGS 84");
  }
  if (std::abs(lon) > 180.0) {
    return fmt::format("longitude {} is not within -180 to 180; give degrees, WGS 84",
                       shortest(lon));
  }
  return "";
}

std::string box_fault(const std::vector<double>& b) {
  for (const std::size_t corner : {std::size_t{0}, std::size_t{2}}) {
    if (const std::string fault = place_fault(b[corner], b[corner + 1]); !fault.empty()) {
      return fault;
    }
  }
  if (!(b[0] < b[2])) {
    return fmt::format(
        "west {} must be less than east {}; an area across the antimeridian is not "
        "supported",
        shortest(b[0]), shortest(b[2]));
  }
  if (!(b[1] < b[3])) {
    return fmt::format("south {} must be less than north {}", shortest(b[1]), shortest(b[3]));
  }
  return b[2] - b[0] > kMaxDegrees ? fmt::format("{} degrees wide, {} at most; take a part of it",
                                                 shortest(b[2] - b[0]), shortest(kMaxDegrees))
                                   : "";
}

Checked check_bounds(const std::string& name, const toml::node& value) {
  Checked problem;
  const auto values = numbers(name, value, 4, "[west, south, east, north] in degrees", problem);
  const std::string fault = problem ? "" : box_fault(values);
  return fault.empty() ? problem : Problem{value.source().begin, name + ": " + fault};
}

Checked check_lon_lat(const std::string& name, const toml::node& value) {
  Checked problem;
  const auto values = numbers(name, value, 2, "[longitude, latitude] in degrees", problem);
  const std::string fault = problem ? "" : place_fault(values[0], values[1]);
  return fault.empty() ? problem : Problem{value.source().begin, name + ": " + fault};
}

/// What is wrong with a point that follows a point at before.
std::string point_fault(double x, double y, double before) {
  if (!(y >= 0.0 && y <= 1.0)) {
    return fmt::format("y must be from 0 to 1, not {}", shortest(y));
  }
  if (!(std::abs(x) <= kMaxX)) {
    return fmt::format("x must be from -1e9 to 1e9, not {}", shortest(x));
  }
  return x < before
             ? fmt::format("x must rise, but {} comes after {}", shortest(x), shortest(before))
             : "";
}

Checked check_curve(const std::string& name, const toml::node& value) {
  const toml::array* array = value.as_array();
  if (!array || array->size() < 2) {
    return Problem{
        value.source().begin,
        fmt::format("{} must be a curve of two points at least, [[x, y], [x, y]], not {}", name,
                    shown(value))};
  }
  double before = -kMaxX;
  for (const toml::node& node : *array) {
    Checked problem;
    const auto point = numbers(name, node, 2, "a curve of points [x, y]", problem);
    if (problem) {
      return problem;
    }
    if (const std::string fault = point_fault(point[0], point[1], before); !fault.empty()) {
      return Problem{node.source().begin, name + ": " + fault};
    }
    before = point[0];
  }
  return std::nullopt;
}

/// A judgement: two names and how many times the first is as important as the second.
Checked check_judgements(const Key& key, const std::string& name, const toml::node& value) {
  const std::string expected = fmt::format(
      "a list of [\"criterion\", \"other criterion\", how many times as important, {} to {}]",
      shortest(key.low), shortest(key.high));
  const auto wrong = [&](const toml::node& node) {
    return Problem{node.source().begin,
                   fmt::format("{} must be {}, not {}", name, expected, shown(node))};
  };
  const toml::array* list = value.as_array();
  if (!list) {
    return wrong(value);
  }
  for (const toml::node& node : *list) {
    const toml::array* one = node.as_array();
    const bool named =
        one && one->size() == 3 && one->get(0)->is_string() && one->get(1)->is_string();
    const auto times = named ? finite_number(*one->get(2)) : std::nullopt;
    if (!times || *times < key.low || *times > key.high) {
      return wrong(node);
    }
  }
  return std::nullopt;
}

Checked check_months(const std::string& name, const toml::node& value) {
  const std::string expected = "a list of months, 1 to 12";
  const toml::array* list = value.as_array();
  if (!list || list->empty()) {
    return Problem{value.source().begin,
                   fmt::format("{} must be {}, not {}", name, expected, shown(value))};
  }
  for (const toml::node& node : *list) {
    const auto month = finite_number(node);
    if (!month || *month < 1.0 || *month > 12.0 || *month != std::floor(*month)) {
      return Problem{node.source().begin,
                     fmt::format("{} must be {}, not {}", name, expected, shown(node))};
    }
  }
  return std::nullopt;
}

}  // namespace

Checked check_array(const Key& key, const std::string& name, const toml::node& value) {
  switch (key.kind) {
    case Kind::bounds:
      return check_bounds(name, value);
    case Kind::lon_lat:
      return check_lon_lat(name, value);
    case Kind::curve:
      return check_curve(name, value);
    case Kind::months:
      return check_months(name, value);
    case Kind::judgements:
      return check_judgements(key, name, value);
    default:
      return check_twelve(key, name, value);
  }
}

}  // namespace tidelot::planfile
