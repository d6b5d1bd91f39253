// SPDX-License-Identifier: Apache-2.0
// [water.*]: what varies over the season, and [sun].
#include <fmt/format.h>

#include <array>

#include "plan/node_text.hpp"
#include "plan/read_tables.hpp"
#include "plan/unit_check.hpp"

namespace tidelot::planfile {
namespace {

constexpr std::array<std::string_view, 3> kSources{"file", "monthly", "constant"};

/// A property has exactly one source.
void check_one_source(const Section& water) {
  std::vector<std::string> given;
  for (const std::string_view source : kSources) {
    if (water.given(source)) {
      given.emplace_back(source);
    }
  }
  if (given.empty()) {
    water.fail("file",
               "is missing; say where the values come from, one of file, monthly (twelve "
               "numbers) or constant");
  }
  if (given.size() > 1) {
    water.fail(given[1], fmt::format("and {} are both given; keep one of them", given[0]));
  }
}

PropertySource source_of(Section& water) {
  if (water.given("file")) {
    FileRef file = water.file("file");
    file.variable = water.text("variable");
    file.crs = water.text("crs");
    return file;
  }
  for (const std::string_view key : {"variable", "crs"}) {
    if (water.given(key)) {
      water.fail(key, "belongs to a file, and none is named; take it out");
    }
  }
  if (water.given("monthly")) {
    return water.twelve("monthly");
  }
  return water.number("constant");
}

/// What becomes of a file's steps of time.
WaterPlan::Steps steps_of(Section& water) {
  if (!water.given("steps")) {
    return WaterPlan::Steps::automatic;
  }
  if (!water.given("file")) {
    water.fail("steps", "belongs to a file with steps of time, and none is named; take it out");
  }
  const std::string word = water.text("steps");
  return word == "monthly" ? WaterPlan::Steps::monthly
         : word == "daily" ? WaterPlan::Steps::daily
                           : WaterPlan::Steps::automatic;
}

/// The values that stand in the plan itself; none where a file holds them.
void check_values(const Section& water, const WaterPlan& plan) {
  if (const auto* constant = std::get_if<double>(&plan.source)) {
    check_plausible(water, "constant", plan.quantity, plan.unit, *constant);
  } else if (const auto* monthly = std::get_if<Monthly>(&plan.source)) {
    for (const double value : *monthly) {
      check_plausible(water, "monthly", plan.quantity, plan.unit, value);
    }
  }
}

/// Light is given as attenuation or as a Secchi depth.
Quantity measured(Section& water, Quantity quantity) {
  return quantity == Quantity::attenuation && water.text("measure") == "secchi" ? Quantity::secchi
                                                                                : quantity;
}

/// eastward and northward are two variables of the file; direction stands beside a speed.
void read_direction(Section& water, WaterPlan& out) {
  const bool east = water.given("eastward");
  if (east != water.given("northward")) {
    water.fail(east ? "eastward" : "northward", "needs the other of eastward and northward");
  }
  if (east) {
    auto* file = std::get_if<FileRef>(&out.source);
    if (file == nullptr || water.given("variable") || water.given("direction")) {
      water.fail("eastward",
                 "and northward are variables of a file, in place of variable and direction; take "
                 "those out");
    }
    file->variable = water.text("eastward");
    out.northward = water.text("northward");
  }
  if (water.given("direction")) {
    if (water.table()->get_as<std::string>("direction") != nullptr) {
      out.direction = water.file("direction");
    } else {
      out.direction = water.number("direction");
    }
  }
}

}  // namespace

WaterPlan read_water(Reading& reading, const std::string& name, Quantity quantity) {
  Section water(reading, "water." + name);
  check_one_source(water);
  WaterPlan out;
  out.key = water.path();
  out.quantity = measured(water, quantity);
  out.source = source_of(water);
  out.unit = checked_unit(water, out.quantity);
  const bool from_file = std::holds_alternative<FileRef>(out.source);
  if (out.unit.empty() && !from_file && quantity == Quantity::nitrogen) {
    water.fail("unit",
               "is missing; nitrogen has no default unit, write unit = \"umol/L\" or "
               "\"mg/L as N\"");
  }
  if (out.unit.empty() && !from_file) {
    reading.record(out.key + ".unit", json_string(canonical_unit(out.quantity)), false,
                   "the unit taken where none is named");
  }
  check_values(water, out);
  out.error = water.maybe_number("error");
  out.steps = steps_of(water);
  if (quantity == Quantity::current) {
    read_direction(water, out);
  }
  return out;
}

double read_nh4_share(Reading& reading) {
  return Section(reading, "water.nitrogen").number("nh4_share");
}

SunPlan read_sun(Reading& reading) {
  Section sun(reading, "sun");
  SunPlan out;
  if (sun.given("file") && sun.given("sunshine")) {
    sun.fail("file", "and sunshine are both given; keep one of them");
  }
  if (sun.given("file")) {
    FileRef file = sun.file("file");
    file.variable = sun.text("variable");
    out.source = std::move(file);
    out.unit = checked_unit(sun, Quantity::radiation);
    return out;
  }
  for (const std::string_view key : {"variable", "unit"}) {
    if (sun.given(key)) {
      sun.fail(key, "belongs to a file of radiation, and none is named; take it out");
    }
  }
  if (sun.given("sunshine") && sun.table()->get("sunshine")->is_array()) {
    out.source = sun.twelve("sunshine");
  } else {
    out.source = sun.number("sunshine");
  }
  return out;
}

}  // namespace tidelot::planfile
