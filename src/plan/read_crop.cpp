// SPDX-License-Identifier: Apache-2.0
// [crop]: a profile, and constants of the user's own laid over it.
#include <fmt/format.h>

#include <algorithm>

#include "plan/node_text.hpp"
#include "plan/plan_file.hpp"
#include "plan/profile_form.hpp"
#include "plan/read_tables.hpp"
#include "plan/toml_place.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/plan/crop_profile.hpp"

namespace tidelot::planfile {
namespace {

bool names_a_file(const std::string& profile) {
  return profile.ends_with(".toml") || profile.find('/') != std::string::npos;
}

Crop from_file(Section& crop, const std::string& profile) {
  if (const std::string fault = plain_file_fault(profile); !fault.empty()) {
    crop.fail("profile", fmt::format("= \"{}\": {}", profile, fault));
  }
  return parse_crop(
      read_text_file(crop.file_named("profile", profile), "crop.profile: " + profile, Fault::input),
      profile);
}

Crop profile_of(Section& crop) {
  const std::string profile = crop.text("profile");
  if (names_a_file(profile)) {
    return from_file(crop, profile);
  }
  const std::vector<std::string> known = built_in_crops();
  if (std::find(known.begin(), known.end(), profile) == known.end()) {
    const std::string near = nearest_word(profile, known);
    crop.fail("profile", fmt::format("= \"{}\" is not a known profile; {}", profile,
                                     near.empty() ? fmt::format("known: {} (or name a .toml file)",
                                                                fmt::join(known, ", "))
                                                  : fmt::format("did you mean \"{}\"?", near)));
  }
  return built_in_crop(profile);
}

CropConstant& constant_named(Crop& crop, const Reading& reading, const toml::key& name) {
  std::vector<std::string> names;
  for (CropConstant& constant : crop.constants) {
    if (constant.name == name.str()) {
      return constant;
    }
    names.push_back(constant.name);
  }
  const std::string near = nearest_word(name.str(), names);
  fail_at(reading.where, name.source(),
          fmt::format("unknown key 'crop.set.{}'; {}", name.str(),
                      near.empty() ? fmt::format("known here: {}", fmt::join(names, ", "))
                                   : fmt::format("did you mean '{}'?", near)));
}

/// Where a constant's profile states no range, any finite number may be set.
void set(CropConstant& constant, const Reading& reading, const toml::node& node) {
  const auto value = finite_number(node);
  const bool ranged = constant.low < constant.high;
  if (!value || (ranged && !(*value >= constant.low && *value <= constant.high))) {
    fail_at(reading.where, node.source(),
            fmt::format(
                "crop.set.{} must be a number{}, not {}", constant.name,
                ranged ? fmt::format(" from {} to {} {} (the profile's range)",
                                     shortest(constant.low), shortest(constant.high), constant.unit)
                       : "",
                shown(node)));
  }
  constant.value = *value;
  if (!ranged) {
    constant.low = constant.high = *value;
  }
  constant.source = "set in the plan";
}

}  // namespace

Crop read_crop(Reading& reading) {
  Section crop(reading, "crop");
  Crop out = profile_of(crop);
  const toml::table* changes = crop.table()->get_as<toml::table>("set");
  if (!changes) {
    return out;
  }
  for (const auto& [name, node] : *changes) {
    set(constant_named(out, reading, name), reading, node);
    reading.record(fmt::format("crop.set.{}", name.str()), json_of(node), true);
  }
  if (const std::string fault = crop_fault(out); !fault.empty()) {
    crop.fail("set", fmt::format("does not fit the profile: {}", fault));
  }
  return out;
}

BoundaryLayer read_boundary_layer(Reading& reading, const Crop& crop) {
  Section section(reading, "crop");
  if (section.text("boundary_layer") == "current") {
    return BoundaryLayer::current;
  }
  for (const KnownConstant& known : profile_form(crop.model).constants) {
    if (known.only_mass_transfer && !crop.has(known.name)) {
      section.fail("boundary_layer",
                   fmt::format("= \"mass_transfer\" needs {}, which profile {} lacks; add "
                               "[constants.{}] to it or take the key out",
                               known.name, crop.name, known.name));
    }
  }
  return BoundaryLayer::mass_transfer;
}

}  // namespace tidelot::planfile
