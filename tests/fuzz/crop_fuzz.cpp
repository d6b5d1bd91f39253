// SPDX-License-Identifier: Apache-2.0
// Bytes as a crop profile: refused in one line, or a crop whose constants lie in their ranges and
// that is the same when it is printed as a profile and read again.
#include <fmt/format.h>

#include <cmath>
#include <string>

#include "plan/node_text.hpp"
#include "plan/profile_form.hpp"
#include "promise.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/plan/crop_profile.hpp"

namespace {

using namespace tidelot;
using fuzz::promise;

/// JSON's strings are TOML's, but for the one control character that TOML has no place for bare.
std::string quoted(const std::string& text) {
  std::string out;
  for (const char c : planfile::json_string(text)) {
    out += c == 0x7F ? std::string("\\u007f") : std::string(1, c);
  }
  return out;
}

std::string number(double value) { return fmt::format("{:#}", value); }

std::string curve(const char* name, const Curve& curve, const std::string& source) {
  std::string points;
  for (const Curve::Point& p : curve.points()) {
    points += fmt::format("[{}, {}],\n", number(p.x), number(p.y));
  }
  return fmt::format("[{}]\npoints = [{}]\nsource = {}\n", name, points, quoted(source));
}

std::string printed(const Crop& crop) {
  const ProfileForm& form = profile_form(crop.model);
  std::string out = fmt::format(
      "name = {}\ntitle = {}\nabout = {}\nseason = {}\nmodel = \"{}\"\nstocking = \"{}\"\n"
      "harvest = \"{}\"\nseason_rule = \"{}\"\n",
      quoted(crop.name), quoted(crop.title), quoted(crop.about), quoted(crop.season), form.word,
      form.stocking, form.harvest, crop.season_rule == SeasonRule::warm ? "warm" : "cold");
  out += curve("salinity", crop.salinity, crop.salinity_source);
  out += curve("growth", crop.growth, crop.growth_source);
  if (form.has_temperature) {
    out += curve("temperature", crop.temperature, crop.temperature_source);
  }
  for (const CropConstant& c : crop.constants) {
    out += fmt::format("[constants.{}]\nvalue = {}\nlow = {}\nhigh = {}\nunit = {}\nsource = {}\n",
                       c.name, number(c.value), number(c.low), number(c.high), quoted(c.unit),
                       quoted(c.source));
  }
  return out;
}

void check_same(const Crop& crop, const Crop& again) {
  promise(crop.name == again.name && crop.title == again.title && crop.about == again.about &&
              crop.season == again.season && crop.model == again.model &&
              crop.season_rule == again.season_rule,
          "a printed profile has the same words");
  promise(crop.salinity == again.salinity && crop.growth == again.growth &&
              crop.temperature == again.temperature,
          "a printed profile has the same curves");
  promise(crop.constants.size() == again.constants.size(), "a printed profile has all constants");
  for (std::size_t i = 0; i < crop.constants.size(); ++i) {
    const CropConstant& a = crop.constants[i];
    const CropConstant& b = again.constants[i];
    promise(a.name == b.name && a.value == b.value && a.low == b.low && a.high == b.high &&
                a.unit == b.unit && a.source == b.source,
            "a printed profile has the same constants");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t count) {
  try {
    const Crop crop = parse_crop(fuzz::text_of(bytes, count), "crop.toml");
    for (const CropConstant& c : crop.constants) {
      promise(std::isfinite(c.value) && c.low <= c.value && c.value <= c.high,
              "a constant lies in its range");
    }
    const GrowthRange range = growth_range(crop);
    promise(range.t_min <= range.t_opt && range.t_opt <= range.t_max,
            "a crop grows best between its bounds");
    check_same(crop, parse_crop(printed(crop), "printed"));
  } catch (const Error& refusal) {
    const std::string_view line = refusal.what();
    fuzz::promise_one_line(line);
    promise(refusal.fault() == Fault::plan && line.starts_with("crop.toml:"),
            "a refusal says where, and what was accepted is accepted when printed");
  }
  return 0;
}
