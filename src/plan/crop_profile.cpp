// SPDX-License-Identifier: Apache-2.0
#include "tidelot/plan/crop_profile.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

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

/// What a constant may be, whatever its own range says.
enum class Sign { any, not_negative, positive };
struct Known {
  const char* name;
  Sign sign;
};
constexpr Known kConstants[] = {
    {"mu_max_per_day", Sign::not_negative},
    {"t_min", Sign::any},
    {"t_opt", Sign::any},
    {"t_max", Sign::any},
    {"light_ik", Sign::positive},
    {"light_ref_h", Sign::positive},
    {"light_ref", Sign::positive},
    {"vmax_nh4", Sign::not_negative},
    {"k_nh4", Sign::positive},
    {"vmax_no3", Sign::not_negative},
    {"k_no3", Sign::positive},
    {"k_inhibition", Sign::positive},
    {"q_min", Sign::positive},
    {"q_max", Sign::positive},
    {"q_start", Sign::positive},
    {"respiration_20", Sign::not_negative},
    {"q10", Sign::positive},
    {"loss_per_day", Sign::not_negative},
    {"dry_to_fresh", Sign::positive},
    {"w_max", Sign::positive},
    {"shade_m2_per_g", Sign::not_negative},
    {"canopy_width_m", Sign::positive},
    {"canopy_height_m", Sign::positive},
    {"u0", Sign::positive},
    {"outplant_temperature", Sign::any},
    {"last_haul_temperature", Sign::any},
};

/// Reads one profile; where names it in messages.
class Reader {
 public:
  Reader(const toml::table& root, const std::string& where) : root_(root), where_(where) {}

  Crop crop() const {
    static const std::vector<std::string> kKeys{"name",   "title",    "about",
                                                "season", "salinity", "constants"};
    refuse_unknown_keys(root_, kKeys, where_, "");
    Crop crop;
    crop.name = text(root_, "name", "");
    crop.title = text(root_, "title", "");
    crop.about = text(root_, "about", "");
    crop.season = text(root_, "season", "");
    read_salinity(crop);
    read_constants(crop);
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

  void read_salinity(Crop& crop) const {
    static const std::vector<std::string> kKeys{"points", "source"};
    const toml::table& salinity = table(root_, "salinity", "");
    refuse_unknown_keys(salinity, kKeys, where_, "salinity.");
    crop.salinity_source = text(salinity, "source", "salinity.");
    const toml::array* points = salinity.get_as<toml::array>("points");
    if (!points) {
      fail_at(where_, place(salinity, "points"),
              "salinity.points: must be [[salinity, factor], ...]");
    }
    crop.salinity = salinity_curve(*points);
  }

  Curve salinity_curve(const toml::array& points) const {
    std::vector<Curve::Point> read;
    for (const toml::node& node : points) {
      const toml::array* pair = node.as_array();
      if (!pair || pair->size() != 2) {
        fail_at(where_, node.source(), "salinity.points: each point is [salinity, factor]");
      }
      read.push_back(
          {number(*pair->get(0), "salinity.points"), number(*pair->get(1), "salinity.points")});
      if (read.back().y < 0.0 || read.back().y > 1.0) {
        fail_at(where_, node.source(), "salinity.points: a factor lies between 0 and 1");
      }
    }
    try {
      return Curve(std::move(read));
    } catch (const std::invalid_argument& fault) {
      fail_at(where_, points.source(), fmt::format("salinity.points: {}", fault.what()));
    }
  }

  void read_constants(Crop& crop) const {
    static const std::vector<std::string> kNames = [] {
      std::vector<std::string> names;
      for (const Known& known : kConstants) {
        names.emplace_back(known.name);
      }
      return names;
    }();
    const toml::table& all = table(root_, "constants", "");
    refuse_unknown_keys(all, kNames, where_, "constants.");
    for (const std::string& name : kNames) {
      crop.constants.push_back(constant(table(all, name, "constants."), name));
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

/// Where constants contradict each other.
std::string fault_together(const Crop& crop) {
  const double t_min = crop.at("t_min");
  const double t_opt = crop.at("t_opt");
  const double t_max = crop.at("t_max");
  if (!(t_opt < t_max && t_opt > (t_min + t_max) / 2.0)) {
    return fmt::format("t_opt: {} must lie above the middle of t_min {} and t_max {}, below t_max",
                       shortest(t_opt), shortest(t_min), shortest(t_max));
  }
  if (!(crop.at("q_min") < crop.at("q_max"))) {
    return "q_min: must be below q_max";
  }
  if (!(crop.at("q_min") <= crop.at("q_start") && crop.at("q_start") <= crop.at("q_max"))) {
    return "q_start: must lie between q_min and q_max";
  }
  return "";
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
  for (const Known& known : kConstants) {
    const auto found = std::find_if(crop.constants.begin(), crop.constants.end(),
                                    [&](const CropConstant& c) { return c.name == known.name; });
    if (found == crop.constants.end()) {
      return fmt::format("{}: must be given", known.name);
    }
    if (std::string fault = fault_alone(*found, known.sign); !fault.empty()) {
      return fault;
    }
  }
  return fault_together(crop);
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
