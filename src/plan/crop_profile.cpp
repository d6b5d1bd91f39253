// SPDX-License-Identifier: Apache-2.0
#include "tidelot/plan/crop_profile.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "plan/profile_form.hpp"
#include "plan/toml_place.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

struct BuiltIn {
  std::string_view name;
  std::string_view text;
};
constexpr BuiltIn kBuiltIn[] = {
#include "crop_profiles.inc"
};

/// Reads one profile; where names it in messages.
class Reader {
 public:
  Reader(const toml::table& root, const std::string& where) : root_(root), where_(where) {}

  Crop crop() const {
    Crop crop;
    const ProfileForm& form = read_form(crop);
    refuse_unknown_keys(root_, keys_of(form), where_, "");
    crop.name = text(root_, "name", "");
    crop.title = text(root_, "title", "");
    crop.about = text(root_, "about", "");
    crop.season = text(root_, "season", "");
    crop.salinity = shares("salinity", crop.salinity_source);
    if (form.has_temperature) {
      crop.temperature = shares("temperature", crop.temperature_source);
    }
    crop.growth = shares("growth", crop.growth_source);
    read_constants(crop, form);
    return crop;
  }

  /// Fails at the table of the constant that the line begins with.
  [[noreturn]] void fail_at_constant(const std::string& line) const {
    const toml::table& all = table(root_, "constants", "");
    const toml::node* node = all.get(line.substr(0, line.find(':')));
    fail_at(where_, (node ? *node : all).source(), "constants." + line);
  }

 private:
  std::string text(const toml::table& from, std::string_view key, std::string_view prefix) const {
    const auto* value = from.get_as<std::string>(key);
    if (!value || value->get().empty()) {
      fail_at(where_, place(from, key), fmt::format("{}{}: must be given as text", prefix, key));
    }
    return value->get();
  }

  const toml::table& table(const toml::table& from, std::string_view key,
                           std::string_view prefix) const {
    const auto* value = from.get_as<toml::table>(key);
    if (!value) {
      fail_at(where_, place(from, key), fmt::format("{}{}: must be given as a table", prefix, key));
    }
    return *value;
  }

  double number(const toml::node& node, std::string_view key) const {
    const auto value = node.value<double>();
    if (!node.is_number() || !value || !std::isfinite(*value)) {
      fail_at(where_, node.source(), fmt::format("{}: must be a finite number", key));
    }
    return *value;
  }

  /// Where a key stands, or, when it is missing, the table that lacks it.
  static const toml::source_region& place(const toml::table& from, std::string_view key) {
    const toml::node* node = from.get(key);
    return node ? node->source() : from.source();
  }

  static std::vector<std::string> keys_of(const ProfileForm& form) {
    std::vector<std::string> keys{"name",     "title",   "about",       "model",
                                  "stocking", "harvest", "season_rule", "season",
                                  "salinity", "growth",  "constants"};
    if (form.has_temperature) {
      keys.emplace_back("temperature");
    }
    return keys;
  }

  /// The index of a key's word among those that it may be.
  std::size_t choice(std::string_view key, std::span<const std::string_view> words) const {
    const std::string word = text(root_, key, "");
    const auto found = std::find(words.begin(), words.end(), word);
    if (found == words.end()) {
      fail_at(
          where_, place(root_, key),
          fmt::format("{}: must be \"{}\", not \"{}\"", key, fmt::join(words, "\" or \""), word));
    }
    return static_cast<std::size_t>(found - words.begin());
  }

  /// What grows the crop, how it is stocked and hauled, which go together, and its season rule.
  const ProfileForm& read_form(Crop& crop) const {
    std::vector<std::string_view> models;
    for (const ProfileForm& form : profile_forms()) {
      models.push_back(form.word);
    }
    const ProfileForm& form = profile_forms()[choice("model", models)];
    static_cast<void>(choice("stocking", {&form.stocking, 1}));
    static_cast<void>(choice("harvest", {&form.harvest, 1}));
    static constexpr std::array<std::string_view, 2> kRules{"warm", "cold"};
    crop.model = form.model;
    crop.season_rule = choice("season_rule", kRules) == 0 ? SeasonRule::warm : SeasonRule::cold;
    return form;
  }

  /// A table of points whose y are shares, with its source.
  Curve shares(std::string_view name, std::string& source) const {
    static const std::vector<std::string> kKeys{"points", "source"};
    const std::string prefix = std::string(name) + ".";
    const toml::table& from = table(root_, name, "");
    refuse_unknown_keys(from, kKeys, where_, prefix);
    source = text(from, "source", prefix);
    const toml::array* points = from.get_as<toml::array>("points");
    if (!points) {
      fail_at(where_, place(from, "points"),
              fmt::format("{}points: must be [[{}, factor], ...]", prefix, name));
    }
    return share_curve(*points, prefix + "points");
  }

  Curve share_curve(const toml::array& points, const std::string& key) const {
    std::vector<Curve::Point> read;
    for (const toml::node& node : points) {
      const toml::array* pair = node.as_array();
      if (!pair || pair->size() != 2) {
        fail_at(where_, node.source(),
                fmt::format("{}: each point is [{}, factor]", key, key.substr(0, key.find('.'))));
      }
      read.push_back({number(*pair->get(0), key), number(*pair->get(1), key)});
      if (read.back().y < 0.0 || read.back().y > 1.0) {
        fail_at(where_, node.source(), fmt::format("{}: a factor lies between 0 and 1", key));
      }
    }
    try {
      return Curve(std::move(read));
    } catch (const std::invalid_argument& fault) {
      fail_at(where_, points.source(), fmt::format("{}: {}", key, fault.what()));
    }
  }

  void read_constants(Crop& crop, const ProfileForm& form) const {
    std::vector<std::string> names;
    for (const KnownConstant& known : form.constants) {
      names.emplace_back(known.name);
    }
    const toml::table& all = table(root_, "constants", "");
    refuse_unknown_keys(all, names, where_, "constants.");
    for (const KnownConstant& known : form.constants) {
      if (!known.only_mass_transfer || all.contains(known.name)) {
        crop.constants.push_back(constant(table(all, known.name, "constants."), known.name));
      }
    }
  }

  CropConstant constant(const toml::table& from, const std::string& name) const {
    static const std::vector<std::string> kKeys{"value", "low", "high", "unit", "source"};
    const std::string prefix = "constants." + name + ".";
    refuse_unknown_keys(from, kKeys, where_, prefix);
    const auto read = [&](std::string_view key, double otherwise) {
      const toml::node* node = from.get(key);
      return node ? number(*node, prefix + std::string(key)) : otherwise;
    };
    if (!from.contains("value")) {
      fail_at(where_, from.source(), prefix + "value: must be given");
    }
    const double value = read("value", 0.0);
    return {name,
            value,
            read("low", value),
            read("high", value),
            text(from, "unit", prefix),
            text(from, "source", prefix)};
  }

  const toml::table& root_;
  const std::string& where_;
};

std::string fault_alone(const CropConstant& c, Sign sign) {
  if (!std::isfinite(c.value) || !std::isfinite(c.low) || !std::isfinite(c.high)) {
    return fmt::format("{}: must be a finite number", c.name);
  }
  if (!(c.low <= c.value && c.value <= c.high)) {
    return fmt::format("{}: {} lies outside its range {} to {}", c.name, shortest(c.value),
                       shortest(c.low), shortest(c.high));
  }
  if (sign == Sign::positive && c.low <= 0.0) {
    return fmt::format("{}: must be above 0", c.name);
  }
  return sign == Sign::not_negative && c.low < 0.0 ? fmt::format("{}: must not be negative", c.name)
                                                   : "";
}

}  // namespace

std::vector<std::string> built_in_crops() {
  std::vector<std::string> names;
  for (const BuiltIn& crop : kBuiltIn) {
    names.emplace_back(crop.name);
  }
  std::sort(names.begin(), names.end());
  return names;
}

Crop built_in_crop(std::string_view name) {
  for (const BuiltIn& crop : kBuiltIn) {
    if (crop.name == name) {
      return parse_crop(crop.text, std::string(name));
    }
  }
  const std::vector<std::string> names = built_in_crops();
  const std::string near = nearest_word(name, names);
  throw Error(Fault::plan,
              fmt::format("crop profile '{}' is not built in; {}", name,
                          near.empty() ? fmt::format("known: {}", fmt::join(names, ", "))
                                       : fmt::format("did you mean '{}'?", near)));
}

std::string crop_fault(const Crop& crop) {
  for (const KnownConstant& known : profile_form(crop.model).constants) {
    const auto found = std::find_if(crop.constants.begin(), crop.constants.end(),
                                    [&](const CropConstant& c) { return c.name == known.name; });
    if (found == crop.constants.end()) {
      if (known.only_mass_transfer) {
        continue;
      }
      return fmt::format("{}: must be given", known.name);
    }
    if (std::string fault = fault_alone(*found, known.sign); !fault.empty()) {
      return fault;
    }
  }
  return contradiction(crop);
}

Crop parse_crop(std::string_view text, const std::string& where) {
  const toml::table root = parse_toml(text, where);
  const Reader reader(root, where);
  Crop crop = reader.crop();
  if (const std::string fault = crop_fault(crop); !fault.empty()) {
    reader.fail_at_constant(fault);
  }
  return crop;
}

}  // namespace tidelot
