// SPDX-License-Identifier: Apache-2.0
#include "tidelot/plan/other_crop.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "plan/node_text.hpp"
#include "plan/plan_file.hpp"
#include "plan/read_tables.hpp"
#include "plan/toml_place.hpp"
#include "tidelot/plan/crop_profile.hpp"

namespace tidelot {
namespace {

/// A plan's TOML while it is changed for another crop.
class Change {
 public:
  explicit Change(toml::table root) : root_(std::move(root)) {}

  void take(const std::string& title, const std::string& profile) {
    root_.insert_or_assign("title", title);
    root_["crop"].as_table()->insert_or_assign("profile", profile);
  }
  /// What the plan gives there goes; nothing where it gives none.
  void take_out(std::string_view table, std::string_view key, std::string_view why) {
    toml::table* of = root_.at_path(table).as_table();
    if (of != nullptr && of->contains(key)) {
      add(table, key, of->get(key), why);
      of->erase(key);
    }
  }
  /// What the plan cannot give for its own crop.
  void tell(std::string_view table, std::string_view key, std::string_view why) {
    add(table, key, nullptr, why);
  }
  void take_out_all(std::string_view table, std::string_view of_it, std::string_view why) {
    toml::table* outer = root_[table].as_table();
    const toml::table* inner = outer == nullptr ? nullptr : (*outer)[of_it].as_table();
    if (inner == nullptr) {
      return;
    }
    for (const auto& [key, node] : *inner) {
      add(fmt::format("{}.{}", table, of_it), key.str(), &node, why);
    }
    outer->erase(of_it);
  }

  [[nodiscard]] const toml::table& root() const { return root_; }
  [[nodiscard]] std::vector<AssumedKey> assumed(const Plan& read) const;

 private:
  void add(std::string_view table, std::string_view key, const toml::node* node,
           std::string_view why) {
    assumed_.push_back({fmt::format("{}.{}", table, key),
                        node == nullptr ? "" : planfile::json_of(*node), "", std::string(why)});
  }

  toml::table root_;
  std::vector<AssumedKey> assumed_;
};

/// With the values in force instead.
std::vector<AssumedKey> Change::assumed(const Plan& read) const {
  std::vector<AssumedKey> out = assumed_;
  for (AssumedKey& one : out) {
    const auto found = std::ranges::find(read.keys, one.key, &ResolvedKey::key);
    one.assumed = found == read.keys.end() ? "" : found->value;
  }
  return out;
}

/// Keys that only a crop that is cut back has.
constexpr std::string_view kCutBackKeys[] = {"stocking_g_per_m", "harvest_days"};

void change_farm(Change& change, const Plan& plan, const Crop& crop) {
  const bool was_cut_back = plan.crop.model == GrowthModel::fragmenting_alga;
  const bool is_cut_back = crop.model == GrowthModel::fragmenting_alga;
  for (const std::string_view key : kCutBackKeys) {
    if (was_cut_back && !is_cut_back) {
      change.take_out("farm", key, "has no meaning for this crop");
    } else if (!was_cut_back && is_cut_back) {
      change.tell("farm", key, "the plan's own crop has none; the default");
    }
  }
  for (const char* key : {"outplant", "last_haul"}) {
    change.take_out("farm", key, "a day of the plan's own crop; here the crop's season rule");
  }
  for (const char* key : {"gear_in", "gear_out"}) {
    change.take_out("season", key,
                    "gear dates of the plan's own season; none are known for this one");
  }
}

}  // namespace

CropPlan plan_for_crop(const Plan& plan, const std::string& name) {
  if (plan.crop.name == name) {
    return {plan, {}};
  }
  const Crop crop = built_in_crop(name);
  const std::string where = plan.path.string();
  Change change(parse_toml(planfile::read_text_file(plan.path, where, Fault::plan), where));
  change.take(fmt::format("{} ({})", plan.title, name), name);
  change.take_out_all("crop", "set", "set for the plan's own crop");
  change.take_out("criteria.growth", "curve", "drawn for the plan's own crop");
  change_farm(change, plan, crop);
  CropPlan out{planfile::plan_of(change.root(), plan.path), {}};
  out.assumed = change.assumed(out.plan);
  return out;
}

}  // namespace tidelot
