// SPDX-License-Identifier: Apache-2.0
#include "tidelot/run/compare.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <set>

#include "geoio/geoio.hpp"
#include "report/folder/output_names.hpp"
#include "run/compare/compare_picture.hpp"
#include "run/compare/crop_turns.hpp"
#include "run/compare/finished.hpp"
#include "run/compare/place_members.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/core/version.hpp"
#include "tidelot/report/output_folder.hpp"

namespace tidelot {
namespace {

namespace fs = std::filesystem;
using run::FinishedRun;

constexpr int kMostSites = 400;  ///< looked for to reach a target
constexpr int kSearches = 3;     ///< for it
constexpr double kSpareSites = 1.25;

/// A plan of the comparison with the name that it goes by.
struct NamedPlan {
  CropPlan plan;                   ///< for the first crop where two are compared
  std::optional<CropPlan> second;  ///< for the second
  std::string name, folder, second_folder;
};

/// A name, with a number after it where it is taken.
std::string unique(std::string name, std::set<std::string>& taken, std::string_view join) {
  std::string out = name;
  for (int n = 2; !taken.insert(out).second; ++n) {
    out = fmt::format("{}{}{}", name, join, n);
  }
  return out;
}

std::vector<NamedPlan> read_plans(std::span<const fs::path> paths,
                                  const std::optional<CropPair>& crops, Comparison& all,
                                  std::optional<Error>& first_fault) {
  std::vector<NamedPlan> out;
  std::set<std::string> names, folders;
  for (const fs::path& path : paths) {
    try {
      const Plan plan = read_plan(path);
      NamedPlan one;
      one.plan = crops ? plan_for_crop(plan, crops->first) : CropPlan{plan, {}};
      if (crops) {
        one.second = plan_for_crop(plan, crops->second);
      }
      const std::string& water = plan.report.waterbody;
      one.name = unique(water.empty() ? plan.title : water, names, " ");
      one.folder = unique(run::folder_name(one.plan.plan.title), folders, "-");
      if (one.second) {
        one.second_folder = unique(run::folder_name(one.second->plan.title), folders, "-");
      }
      out.push_back(std::move(one));
    } catch (const Error& problem) {
      all.failed.push_back({path.string(), problem.what()});
      first_fault = first_fault ? first_fault : problem;
    }
  }
  return out;
}

/// " (crop.profile and farm.line_gap_m differ, too)": all but the first; "" where there is one.
std::string other_keys(const std::vector<KeyDifference>& differences) {
  std::vector<std::string> keys;
  for (std::size_t i = 1; i < differences.size(); ++i) {
    keys.push_back(differences[i].key);
  }
  if (keys.size() < 2) {
    return keys.empty() ? "" : fmt::format(" ({} differs, too)", keys.front());
  }
  const std::string last = keys.back();
  keys.pop_back();
  return fmt::format(" ({} and {} differ, too)", fmt::join(keys, ", "), last);
}

void refuse_differences(const Comparison& all) {
  const KeyDifference& first = all.differences.front();
  std::string values;
  for (std::size_t i = 0; i < first.values.size(); ++i) {
    values += fmt::format("{}{} in {}", i == 0 ? "" : ", ",
                          first.values[i].empty() ? "not there" : first.values[i], all.names[i]);
  }
  throw Error(
      Fault::plan,
      fmt::format("the plans do not measure alike: {} is {}{}; make crop, farm, money and sites "
                  "the same, or go on with --allow-different",
                  first.key, values, other_keys(all.differences)));
}

/// The plan with so many sites to look for.
Plan with_sites(Plan plan, int count) {
  plan.sites.count = count;
  for (ResolvedKey& key : plan.keys) {
    if (key.key == "sites.count") {
      key.value = fmt::format("{}", count);
    }
  }
  return plan;
}

/// Sites that the search found: the plan's count is theirs, own boxes come on top.
int found_in(const Bay& bay) {
  return static_cast<int>(
      std::ranges::count_if(bay.sites, [](const BaySite& site) { return !site.own; }));
}

/// Looks for more sites until the target is met or no more fit.
TargetFinding find_target(const NamedPlan& one, const Bay& bay, double target_kg,
                          const fs::path& bays, const RunOptions& options) {
  const Plan& plan = one.plan.plan;
  int count = plan.sites.count;
  Bay found = bay;
  for (int search = 0; search < kSearches; ++search) {
    const bool no_more_fit = found_in(found) < count;
    const TargetFinding out = target_finding(found, target_kg, no_more_fit);
    if (out.nine_in_ten || no_more_fit || count >= kMostSites || !(out.most_kg > 0.0)) {
      return out;
    }
    const double sure = std::clamp(found.all.nitrogen_p10_kg.value_or(0.0) / out.most_kg, 0.2, 1.0);
    const double wanted = kSpareSites * count * target_kg / sure / out.most_kg;
    count = static_cast<int>(std::min<double>(kMostSites, std::ceil(wanted)));
    found = run::finished(with_sites(plan, count), bays / (one.folder + "-target"), options).bay;
  }
  return target_finding(found, target_kg, found_in(found) < count);
}

void add_pictures(const std::vector<FinishedRun>& runs, Comparison& all) {
  geoio::start();
  const auto opener = geoio::make_opener();
  std::vector<run::FinishedMaps> maps;
  std::vector<std::pair<double, double>> sizes;
  for (const FinishedRun& one : runs) {
    maps.emplace_back(one.folder, one.grid_scale, *opener);
    sizes.emplace_back(maps.back().width_m(), maps.back().height_m());
  }
  const double side = run::sample_side(sizes);
  for (std::size_t i = 0; i < runs.size(); ++i) {
    all.bays[i].picture = maps[i].picture(side, all.bays[i].bay, *opener);
  }
}

/// The record of the comparison: where each run lies, what was asked. run.json may hold paths.
std::string record(const CompareSummary& summary, const std::vector<FinishedRun>& runs,
                   const CompareOptions& options) {
  using Json = nlohmann::ordered_json;
  Json bays = Json::array();
  for (std::size_t i = 0; i < runs.size(); ++i) {
    bays.push_back({{"estuary", summary.comparison.bays[i].name},
                    {"folder", runs[i].folder.string()},
                    {"reused", runs[i].reused}});
  }
  const Json out{
      {"program", "tidelot"},
      {"version", version()},
      {"command", "compare"},
      {"partial", !summary.comparison.failed.empty()},
      {"allow_different", options.allow_different},
      {"crops", options.crops ? Json{options.crops->first, options.crops->second} : Json()},
      {"bays", std::move(bays)},
      {"outputs", {"compare.html", "compare.csv", "compare.json", "run.json"}}};
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

ReportPlan::Units units_of(const std::vector<NamedPlan>& plans) {
  const ReportPlan::Units first = plans.front().plan.plan.report.units;
  const bool same = std::ranges::all_of(
      plans, [&](const NamedPlan& one) { return one.plan.plan.report.units == first; });
  return same ? first : ReportPlan::Units::both;
}

/// The labels that all plans name, else the built-in ones.
std::shared_ptr<const Labels> labels_of(const std::vector<NamedPlan>& plans) {
  const auto& first = plans.front().plan.plan.report.labels;
  const bool same = std::ranges::all_of(plans, [&](const NamedPlan& one) {
    return one.plan.plan.report.labels->all() == first->all();
  });
  return same ? first : Labels::built_in();
}

bool is_measure(const std::string& key) {
  return key.starts_with("crop.") || key.starts_with("farm.") || key.starts_with("money.") ||
         key == "sites.count" || key == "sites.area_ha" || key == "sites.shape";
}

/// Keys of the measure with their values; constants of the crop as a profile or the plan has them.
std::vector<std::pair<std::string, std::string>> measure_keys(const Plan& plan) {
  std::vector<std::pair<std::string, std::string>> out;
  for (const ResolvedKey& key : plan.keys) {
    if (is_measure(key.key) && !key.key.starts_with("crop.set.")) {
      out.emplace_back(key.key, key.value);
    }
  }
  for (const CropConstant& constant : plan.crop.constants) {
    out.emplace_back("crop.set." + constant.name, shortest(constant.value));
  }
  return out;
}

void check_count(std::size_t plans) {
  if (plans < kFewestPlans || plans > kMostPlans) {
    throw Error(Fault::plan, fmt::format("{} plan{} given; compare takes {} to {}", plans,
                                         plans == 1 ? "" : "s", kFewestPlans, kMostPlans));
  }
}

}  // namespace

std::vector<KeyDifference> measure_differences(std::span<const Plan> plans) {
  std::vector<KeyDifference> out;
  for (std::size_t i = 0; i < plans.size(); ++i) {
    for (const auto& [name, value] : measure_keys(plans[i])) {
      auto found = std::ranges::find(out, name, &KeyDifference::key);
      if (found == out.end()) {
        out.push_back({name, std::vector<std::string>(plans.size())});
        found = out.end() - 1;
      }
      found->values[i] = value;
    }
  }
  std::erase_if(out, [](const KeyDifference& one) {
    return std::ranges::all_of(one.values, [&](const auto& v) { return v == one.values[0]; });
  });
  return out;
}

namespace {

/// Those of the plans as they are for each crop, a key once.
std::vector<KeyDifference> differences_of(const std::vector<NamedPlan>& plans) {
  std::vector<Plan> of_first, of_second;
  for (const NamedPlan& one : plans) {
    of_first.push_back(one.plan.plan);
    if (one.second) {
      of_second.push_back(one.second->plan);
    }
  }
  std::vector<KeyDifference> out = measure_differences(of_first);
  for (KeyDifference& more : measure_differences(of_second)) {
    if (std::ranges::find(out, more.key, &KeyDifference::key) == out.end()) {
      out.push_back(std::move(more));
    }
  }
  return out;
}

/// One plan's options: its progress goes by its name.
RunOptions options_for(const NamedPlan& one, const RunOptions& options) {
  RunOptions here = options;
  if (options.progress) {
    here.progress = [&](const Progress& progress) {
      Progress named = progress;
      named.stage = one.name + ": " + progress.stage;
      options.progress(named);
    };
  }
  return here;
}

/// The second crop's own run, and both in turn.
TwoCrops two_crops(const NamedPlan& one, const FinishedRun& run, const fs::path& bays,
                   const RunOptions& options, CompareSummary& summary) {
  const CropPlan& second = *one.second;
  const FinishedRun other = run::finished(second.plan, bays / one.second_folder, options);
  if (other.reused) {
    summary.reused.push_back(fmt::format("{}, {}", one.name, second.plan.crop.name));
  }
  return {crop_yield_of(other.bay),
          run::finished_turns(one.plan.plan, second.plan, run, other,
                              bays / (one.folder + "-then-" + second.plan.crop.name), options),
          one.plan.assumed, second.assumed};
}

/// Runs one plan with all that is asked of it.
void add_bay(const NamedPlan& one, const fs::path& bays, const CompareOptions& options,
             CompareSummary& summary, std::vector<FinishedRun>& runs) {
  const RunOptions here = options_for(one, options.run);
  FinishedRun run = run::finished(one.plan.plan, bays / one.folder, here);
  run::add_place_members(run, one.plan.plan, bays / (one.folder + "-place"), here);
  ComparedBay compared{one.name, run.bay, {}, {}, {}};
  if (options.target_kg) {
    compared.target = find_target(one, run.bay, *options.target_kg, bays, here);
  }
  if (run.reused) {
    summary.reused.push_back(one.name);
  }
  if (one.second) {
    compared.crops = two_crops(one, run, bays, here, summary);
  }
  summary.comparison.bays.push_back(std::move(compared));
  runs.push_back(std::move(run));
}

}  // namespace

CompareSummary compare(std::span<const fs::path> paths, const CompareOptions& options) {
  check_count(paths.size());
  CompareSummary summary;
  summary.out = options.run.out;
  Comparison& all = summary.comparison;
  all.target_kg = options.target_kg;
  all.crops = options.crops;
  std::optional<Error> first_fault;
  const std::vector<NamedPlan> plans = read_plans(paths, options.crops, all, first_fault);
  for (const NamedPlan& one : plans) {
    all.names.push_back(one.name);
  }
  all.differences = differences_of(plans);
  if (!all.differences.empty() && !options.allow_different) {
    refuse_differences(all);
  }
  if (plans.empty()) {
    throw *first_fault;
  }
  OutputFolder folder(options.run.out);
  const fs::path bays = fs::absolute(options.run.out) / kBays;
  std::vector<FinishedRun> runs;
  for (const NamedPlan& one : plans) {
    try {
      add_bay(one, bays, options, summary, runs);
    } catch (const Error& problem) {
      if (problem.fault() == Fault::output) {
        throw;
      }
      all.failed.push_back({one.name, problem.what()});
      first_fault = first_fault ? first_fault : problem;
    }
  }
  if (all.bays.empty()) {
    throw *first_fault;
  }
  all.units = units_of(plans);
  all.labels = labels_of(plans);
  add_pictures(runs, all);
  folder.write("compare.html", compare_html(all, *geoio::make_map_writer()));
  folder.write("compare.csv", compare_csv(all));
  folder.write("compare.json", compare_json(all));
  folder.write("run.json", record(summary, runs, options));
  folder.commit();
  return summary;
}

}  // namespace tidelot
