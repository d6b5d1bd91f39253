// SPDX-License-Identifier: Apache-2.0
#include "tidelot/plan/plan.hpp"

#include <fmt/format.h>

#include <system_error>

#include "plan/key_check.hpp"
#include "plan/plan_file.hpp"
#include "plan/read_tables.hpp"
#include "plan/toml_place.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

using planfile::Reading;

/// Without a working folder a relative path stays as it is.
std::filesystem::path whole_path(const std::filesystem::path& path) {
  std::error_code problem;
  const auto full = std::filesystem::absolute(path, problem);
  return problem ? path : full;
}

/// Top to bottom in the order in which the keys are listed.
void read_tables(Reading& reading, Plan& plan) {
  plan.title = planfile::Section(reading, &reading.root, "").text("title");
  plan.area = planfile::read_area(reading);
  plan.depth = planfile::read_depth(reading);
  plan.land = planfile::read_land(reading);
  plan.temperature = planfile::read_water(reading, "temperature", Quantity::temperature);
  plan.salinity = planfile::read_water(reading, "salinity", Quantity::salinity);
  plan.light = planfile::read_water(reading, "light", Quantity::attenuation);
  plan.light_relation = planfile::read_light_relation(reading);
  planfile::read_nitrogen(reading, plan);
  plan.current = planfile::read_water(reading, "current", Quantity::current);
  plan.season = planfile::read_season(reading);
  plan.sun = planfile::read_sun(reading);
  plan.closed = planfile::read_closed(reading);
  plan.near = planfile::read_near(reading);
  plan.crop = planfile::read_crop(reading);
  plan.boundary_layer = planfile::read_boundary_layer(reading, plan.crop);
  plan.farm = planfile::read_farm(reading, plan.crop);
  for (ClosedPlan& rule : plan.closed) {
    rule.applies = !rule.food_only || plan.farm.food;
  }
  plan.waves = planfile::read_waves(reading);
  plan.criteria = planfile::read_criteria(reading, plan.crop);
  plan.combine = planfile::read_combine(reading);
  plan.sites = planfile::read_sites(reading);
  plan.uncertainty = planfile::read_uncertainty(reading);
  plan.load = planfile::read_load(reading);
  plan.report = planfile::read_report(reading);
  plan.money = planfile::read_money(reading);
  plan.field = planfile::read_field(reading);
  plan.codec = planfile::read_codec(reading);
  plan.warnings = planfile::plan_warnings(plan);
}

}  // namespace

double gear_sinks_to_m(const FarmPlan& farm, double lowest_tide_m) {
  return farm.fixed_line ? 0.0 : lowest_tide_m;
}

Plan planfile::plan_of(const toml::table& root, const std::filesystem::path& path) {
  check_keys(root, path.string());
  Plan plan;
  plan.path = whole_path(path);
  plan.allow = allowances_of(root);
  Reading reading{root, path.string(), plan.path.parent_path(), plan};
  read_tables(reading, plan);
  return plan;
}

Plan parse_plan(std::string_view text, const std::filesystem::path& path) {
  return planfile::plan_of(parse_toml(text, path.string()), path);
}

Plan read_plan(const std::filesystem::path& path) {
  return parse_plan(planfile::read_text_file(path, path.string(), Fault::plan), path);
}

std::string table_called(std::string_view table, std::size_t index, std::string_view name) {
  return name.empty() ? fmt::format("{}[{}]", table, index)
                      : fmt::format("{} \"{}\"", table, foreign_text(name));
}

}  // namespace tidelot
