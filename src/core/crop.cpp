// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/crop.hpp"

#include <algorithm>
#include <iterator>
#include <limits>
#include <stdexcept>

namespace tidelot {
namespace {

GrowthRange range_of(const std::vector<Curve::Point>& points) {
  constexpr double kNever = std::numeric_limits<double>::infinity();
  const auto lower = [](const Curve::Point& a, const Curve::Point& b) { return a.y < b.y; };
  const auto first = std::max_element(points.begin(), points.end(), lower);
  const auto last = std::max_element(points.rbegin(), points.rend(), lower);
  const auto grows = [](const Curve::Point& p) { return p.y > 0.0; };
  const auto from = std::find_if(points.begin(), points.end(), grows);
  const auto to = std::find_if(points.rbegin(), points.rend(), grows);
  const bool ends_cold = from != points.begin() && from != points.end();
  const bool ends_warm = to != points.rbegin() && to != points.rend();
  return {ends_cold ? std::prev(from)->x : -kNever, (first->x + last->x) / 2.0,
          ends_warm ? std::prev(to)->x : kNever};
}

}  // namespace

double Crop::at(std::string_view constant) const {
  const auto found = std::find_if(constants.begin(), constants.end(),
                                  [&](const CropConstant& c) { return c.name == constant; });
  if (found == constants.end()) {
    throw std::out_of_range("crop profile '" + name + "' has no constant " + std::string(constant));
  }
  return found->value;
}

bool Crop::has(std::string_view constant) const {
  return std::any_of(constants.begin(), constants.end(),
                     [&](const CropConstant& c) { return c.name == constant; });
}

GrowthRange growth_range(const Crop& crop) {
  return crop.temperature.points().empty()
             ? GrowthRange{crop.at("t_min"), crop.at("t_opt"), crop.at("t_max")}
             : range_of(crop.temperature.points());
}

}  // namespace tidelot
