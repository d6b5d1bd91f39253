// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "plan/section.hpp"

// One function a table of the plan. Each reads its keys in the order of the list of keys and checks
// what one key alone cannot show. They throw Error(plan) with file:line:column.
namespace tidelot::planfile {

[[nodiscard]] AreaPlan read_area(Reading& reading);
[[nodiscard]] DepthPlan read_depth(Reading& reading);
[[nodiscard]] std::optional<LandPlan> read_land(Reading& reading);
[[nodiscard]] SeasonPlan read_season(Reading& reading);
[[nodiscard]] SunPlan read_sun(Reading& reading);
[[nodiscard]] std::vector<ClosedPlan> read_closed(Reading& reading);
[[nodiscard]] std::vector<NearPlan> read_near(Reading& reading);
/// The word of a key `sheet`.
[[nodiscard]] MapSheet map_sheet(std::string_view word);

/// What has no meaning for the crop may not be given: stocking and harvest days of a kelp.
[[nodiscard]] FarmPlan read_farm(Reading& reading, const Crop& crop);

[[nodiscard]] std::optional<WavesPlan> read_waves(Reading& reading);
[[nodiscard]] SitesPlan read_sites(Reading& reading);
[[nodiscard]] UncertaintyPlan read_uncertainty(Reading& reading);
[[nodiscard]] std::optional<LoadPlan> read_load(Reading& reading);
[[nodiscard]] ReportPlan read_report(Reading& reading);
[[nodiscard]] std::optional<MoneyPlan> read_money(Reading& reading);

[[nodiscard]] std::optional<FieldPlan> read_field(Reading& reading);

/// [run] allow of a checked plan. What it says is in force before the first table is read.
[[nodiscard]] Allowances allowances_of(const toml::table& root);
/// [run] codec; records `allow` beside it.
[[nodiscard]] MapCodec read_codec(Reading& reading);

/// One [water.*] table.
[[nodiscard]] WaterPlan read_water(Reading& reading, const std::string& name, Quantity quantity);

/// How the values of [water.light] become attenuation.
[[nodiscard]] LightPlan read_light_relation(Reading& reading);

/// [water.nitrogen]: dissolved nitrogen with the share of ammonium in it, or nitrate and ammonium
/// each for itself.
void read_nitrogen(Reading& reading, Plan& plan);

/// The profile with [crop.set] laid over it.
[[nodiscard]] Crop read_crop(Reading& reading);
[[nodiscard]] BoundaryLayer read_boundary_layer(Reading& reading, const Crop& crop);

/// The criteria in force: known ones in their fixed order, then one's own as they stand. The crop
/// states the growth curve where the plan does not.
[[nodiscard]] std::vector<CriterionPlan> read_criteria(Reading& reading, const Crop& crop);
[[nodiscard]] Combine read_combine(Reading& reading);

/// A whole plan: checks the keys and reads every table. Error(plan) as parse_plan.
[[nodiscard]] Plan plan_of(const toml::table& root, const std::filesystem::path& path);

/// What a user should look at although the plan holds: one line each, from the plan alone.
[[nodiscard]] std::vector<std::string> plan_warnings(const Plan& plan);

}  // namespace tidelot::planfile
