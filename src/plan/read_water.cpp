// SPDX-License-Identifier: Apache-2.0
// [water.*]: what varies over the season, and [sun].
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "plan/key_table.hpp"
#include "plan/node_text.hpp"
#include "plan/read_tables.hpp"
#include "plan/unit_check.hpp"

namespace tidelot::planfile {
namespace {

constexpr std::array<std::string_view, 4> kSources{"file", "stations", "monthly", "constant"};

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
               "is missing; say where the values come from, one of file, stations, monthly (twelve "
               "numbers) or constant");
  }
  if (given.size() > 1) {
    water.fail(given[1], fmt::format("and {} are both given; keep one of them", given[0]));
  }
}

/// [water.NAME.columns]: what a column holds -> its header.
std::map<std::string, std::string> columns_of(const Section& water) {
  std::map<std::string, std::string> out;
  Section columns(water.reading(), water.path() + ".columns");
  for (const Key* key : keys_of(columns.path())) {
    if (columns.given(key->name)) {
      out.emplace(key->name, columns.text(key->name));
    }
  }
  return out;
}

StationsRef stations_of(Section& water) {
  StationsRef out;
  out.file = water.file("stations");
  out.station_file = water.maybe_file("station_file");
  out.columns = columns_of(water);
  out.characteristic = water.text("characteristic");
  out.depth_max_m = water.number("depth_max_m");
  out.power = water.number("power");
  out.nugget_m = water.number("nugget_m");
  out.snap_m = water.number("snap_m");
  return out;
}

/// Keys that say how stations are read mean nothing with another source.
void check_no_station_keys(const Section& water) {
  for (const std::string_view key : {"columns", "station_file", "characteristic", "depth_max_m",
                                     "power", "nugget_m", "snap_m"}) {
    if (water.given(key)) {
      water.fail(key, "belongs to stations, and none are named; take it out");
    }
  }
}

PropertySource source_of(Section& water) {
  if (water.given("stations")) {
    if (water.given("variable")) {
      water.fail("variable", "picks one out of a raster file; of stations use characteristic");
    }
    return stations_of(water);
  }
  check_no_station_keys(water);
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

/// Light is given as attenuation, as a Secchi depth or as a turbidity.
Quantity measured(Section& water, Quantity quantity) {
  if (quantity != Quantity::attenuation) {
    return quantity;
  }
  const std::string measure = water.text("measure");
  return measure == "secchi"      ? Quantity::secchi
         : measure == "turbidity" ? Quantity::turbidity
                                  : quantity;
}

SecchiRelation relation_of(const std::string& word) {
  constexpr std::array<std::pair<std::string_view, SecchiRelation>, 5> kRelations{{
      {"auto", SecchiRelation::automatic},
      {"poole-atkins-1929", SecchiRelation::poole_atkins_1929},
      {"holmes-1970", SecchiRelation::holmes_1970},
      {"devlin-2008", SecchiRelation::devlin_2008},
      {"montes-hugo-2005", SecchiRelation::montes_hugo_2005},
  }};
  const auto found = std::find_if(kRelations.begin(), kRelations.end(),
                                  [&](const auto& each) { return each.first == word; });
  return found != kRelations.end() ? found->second : SecchiRelation::automatic;
}

/// A key that belongs to another measure is a slip.
void check_belongs(const Section& light, std::string_view key, std::string_view measure,
                   const std::string& given) {
  if (light.given(key) && given != measure) {
    light.fail(key, fmt::format("belongs to measure = \"{}\", and measure is \"{}\"; take one out",
                                measure, given));
  }
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
  const bool from_file = std::holds_alternative<FileRef>(out.source) ||
                         std::holds_alternative<StationsRef>(out.source);
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

LightPlan read_light_relation(Reading& reading) {
  Section light(reading, "water.light");
  const toml::table* table = light.table();
  const std::string measure = table ? (*table)["measure"].value_or(std::string("kd")) : "kd";
  check_belongs(light, "secchi_relation", "secchi", measure);
  check_belongs(light, "turbidity_intercept", "turbidity", measure);
  check_belongs(light, "turbidity_slope", "turbidity", measure);
  LightPlan out;
  out.kd490 = measure == "kd490";
  if (out.kd490 && light.given("stations")) {
    light.fail("measure", "= \"kd490\" is for a satellite's file; of stations give kd or secchi");
  }
  if (measure == "secchi") {
    out.secchi = relation_of(light.text("secchi_relation"));
  }
  if (measure == "turbidity") {
    for (const std::string_view key : {"turbidity_intercept", "turbidity_slope"}) {
      if (!light.given(key)) {
        light.fail(key,
                   "is missing; turbidity becomes attenuation (1/m) as turbidity_intercept + "
                   "turbidity_slope x NTU, two numbers that hold for one bay only");
      }
    }
    out.turbidity_intercept = light.number("turbidity_intercept");
    out.turbidity_slope = light.number("turbidity_slope");
  }
  return out;
}

void read_nitrogen(Reading& reading, Plan& plan) {
  Section nitrogen(reading, "water.nitrogen");
  if (!nitrogen.given("nitrate") && !nitrogen.given("ammonium")) {
    plan.nitrogen = read_water(reading, "nitrogen", Quantity::nitrogen);
    plan.nh4_share = nitrogen.number("nh4_share");
    return;
  }
  for (const auto& [key, value] : *nitrogen.table()) {
    if (key.str() != "nitrate" && key.str() != "ammonium") {
      nitrogen.fail(key.str(),
                    "is for dissolved nitrogen as a whole, and nitrate and ammonium are given "
                    "apart; take one out");
    }
  }
  for (const std::string_view key : {"nitrate", "ammonium"}) {
    if (!nitrogen.given(key)) {
      nitrogen.fail(key, "is missing; nitrate and ammonium are given both or neither");
    }
  }
  plan.nitrogen.key = nitrogen.path();
  plan.nitrogen.quantity = Quantity::nitrogen;
  plan.nitrate = read_water(reading, "nitrogen.nitrate", Quantity::nitrogen);
  plan.ammonium = read_water(reading, "nitrogen.ammonium", Quantity::nitrogen);
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
