// SPDX-License-Identifier: Apache-2.0
// [criteria.*]: measures, their curves and weights.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <tuple>

#include "plan/read_tables.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::planfile {
namespace {

constexpr std::array<std::string_view, 3> kUnasked{"growth", "depth", "current"};
constexpr std::array<std::string_view, 4> kKnown{"growth", "depth", "current", "access"};
/// maps/reason.tif has codes for so many of the user's own.
constexpr std::size_t kMaxOwn = 24;

bool is_known(std::string_view name) {
  return std::find(kKnown.begin(), kKnown.end(), name) != kKnown.end();
}

/// The user's own criteria as they stand in the file.
std::vector<std::string> own_names(const toml::table& table) {
  std::vector<std::tuple<toml::source_index, toml::source_index, std::string>> placed;
  for (const auto& [name, node] : table) {
    if (!is_known(name.str())) {
      placed.emplace_back(name.source().begin.line, name.source().begin.column, name.str());
    }
  }
  std::sort(placed.begin(), placed.end());
  std::vector<std::string> names;
  for (const auto& [line, column, name] : placed) {
    names.push_back(name);
  }
  return names;
}

/// Known criteria first, in their fixed order, then one's own in the order of the file.
std::vector<std::string> names_in_force(const toml::table* table) {
  if (!table) {
    return {kUnasked.begin(), kUnasked.end()};
  }
  std::vector<std::string> names;
  for (const std::string_view name : kKnown) {
    if (table->contains(name)) {
      names.emplace_back(name);
    }
  }
  const std::vector<std::string> own = own_names(*table);
  names.insert(names.end(), own.begin(), own.end());
  return names;
}

/// The growth curve: the plan's, else the crop's.
Curve growth_curve(Section& section, const Crop& crop) {
  if (section.given("curve")) {
    return section.curve("curve");
  }
  std::vector<std::string> points;
  for (const Curve::Point& point : crop.growth.points()) {
    points.push_back(fmt::format("[{}, {}]", shortest(point.x), shortest(point.y)));
  }
  section.reading().record("criteria.growth.curve", fmt::format("[{}]", fmt::join(points, ", ")),
                           false, "crop profile; " + crop.growth_source);
  return crop.growth;
}

CriterionPlan read_one(Reading& reading, const std::string& name, const Crop& crop) {
  Section section(reading, "criteria." + name);
  CriterionPlan out;
  out.name = name;
  if (!is_known(name)) {
    out.file = section.file("file");
    out.file->variable = section.text("variable");
    out.unit = section.text("unit");
  }
  out.curve = name == "growth" ? growth_curve(section, crop) : section.curve("curve");
  out.weight = section.number("weight");
  return out;
}

void check_together(const Section& section, const std::vector<CriterionPlan>& criteria) {
  if (criteria.empty()) {
    section.fail("growth", "is missing; [criteria] names no criterion, name one or take it out");
  }
  if (std::none_of(criteria.begin(), criteria.end(),
                   [](const CriterionPlan& c) { return c.weight > 0.0; })) {
    section.fail(criteria.front().name, "and the others weigh 0; give one a weight above 0");
  }
  const auto own = std::count_if(criteria.begin(), criteria.end(),
                                 [](const CriterionPlan& c) { return c.file.has_value(); });
  if (static_cast<std::size_t>(own) > kMaxOwn) {
    section.fail(criteria.back().name,
                 fmt::format("is one too many; {} of one's own at most", kMaxOwn));
  }
}

}  // namespace

std::vector<CriterionPlan> read_criteria(Reading& reading, const Crop& crop) {
  const Section section(reading, "criteria");
  if (section.given("access") && !Section(reading, "sites").given("landing")) {
    section.fail("access",
                 "needs [sites] landing = [lon, lat]; the measure is the way over water "
                 "to it, km");
  }
  std::vector<CriterionPlan> criteria;
  for (const std::string& name : names_in_force(section.table())) {
    criteria.push_back(read_one(reading, name, crop));
  }
  check_together(section, criteria);
  return criteria;
}

}  // namespace tidelot::planfile
