// SPDX-License-Identifier: Apache-2.0
// [criteria.*]: measures, their curves and weights.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <tuple>

#include "plan/read_tables.hpp"
#include "tidelot/core/judgement.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::planfile {
namespace {

constexpr std::array<std::string_view, 3> kUnasked{"growth", "depth", "current"};
constexpr std::array<std::string_view, 6> kKnown{"growth", "depth",  "current",
                                                 "waves",  "access", "slope"};
/// maps/reason.tif has codes for so many of the user's own.
constexpr std::size_t kMaxOwn = 24;

/// Is it a measure of the program's? "slope" with a file is one of the user's own.
bool is_known(const toml::table& criteria, std::string_view name) {
  const toml::table* one = criteria[name].as_table();
  return std::find(kKnown.begin(), kKnown.end(), name) != kKnown.end() &&
         !(name == "slope" && one && one->contains("file"));
}

/// Keys of [criteria] that are no criterion.
constexpr std::array<std::string_view, 2> kNoCriterion{"judgement", "combine"};

bool names_criterion(std::string_view name) {
  return std::find(kNoCriterion.begin(), kNoCriterion.end(), name) == kNoCriterion.end();
}

/// The user's own criteria as they stand in the file.
std::vector<std::string> own_names(const toml::table& table) {
  std::vector<std::tuple<toml::source_index, toml::source_index, std::string>> placed;
  for (const auto& [name, node] : table) {
    if (!is_known(table, name.str()) && names_criterion(name.str())) {
      placed.emplace_back(name.source().begin.line, name.source().begin.column, name.str());
    }
  }
  std::sort(placed.begin(), placed.end());
  std::vector<std::string> names;
  names.reserve(placed.size());
  for (const auto& [line, column, name] : placed) {
    names.push_back(name);
  }
  return names;
}

bool names_any_criterion(const toml::table& table) {
  return std::any_of(table.begin(), table.end(),
                     [](const auto& entry) { return names_criterion(entry.first.str()); });
}

/// Known criteria first, in their fixed order, then one's own in the order of the file.
std::vector<std::string> names_in_force(const toml::table* table) {
  if (!table || (!table->empty() && !names_any_criterion(*table))) {
    return {kUnasked.begin(), kUnasked.end()};
  }
  std::vector<std::string> names;
  for (const std::string_view name : kKnown) {
    if (table->contains(name) && is_known(*table, name)) {
      names.emplace_back(name);
    }
  }
  const std::vector<std::string> own = own_names(*table);
  names.insert(names.end(), own.begin(), own.end());
  return names;
}

/// The growth curve: the plan's, else the crop's.
Curve growth_curve(Section& section, const Crop& crop) {
  if (section.given("curve")) {
    return section.curve("curve");
  }
  std::vector<std::string> points;
  for (const Curve::Point& point : crop.growth.points()) {
    points.push_back(fmt::format("[{}, {}]", shortest(point.x), shortest(point.y)));
  }
  section.reading().record("criteria.growth.curve", fmt::format("[{}]", fmt::join(points, ", ")),
                           false, "crop profile; " + crop.growth_source);
  return crop.growth;
}

/// [criteria.slope] is read either way, so the list of keys cannot say what goes with its file.
void check_slope(const Section& slope) {
  if (slope.given("file") && !slope.given("curve")) {
    slope.fail("file", "needs a curve = [[measure, score], ...] beside it");
  }
  for (const char* key : {"variable", "unit"}) {
    if (slope.given(key) && !slope.given("file")) {
      slope.fail(key, "goes with a file; without one the slope of the bed is worked out, degrees");
    }
  }
}

CriterionPlan read_one(Reading& reading, const std::string& name, const Crop& crop, bool judged) {
  Section section(reading, "criteria." + name);
  CriterionPlan out;
  out.name = name;
  if (name == "slope") {
    check_slope(section);
  }
  const toml::table* criteria = reading.root["criteria"].as_table();
  if (criteria && !is_known(*criteria, name)) {
    out.file = section.file("file");
    out.file->variable = section.text("variable");
    out.unit = section.text("unit");
  }
  out.curve = name == "growth" ? growth_curve(section, crop) : section.curve("curve");
  if (judged && section.given("weight")) {
    section.fail("weight", "and [criteria.judgement] are both given; keep one of them");
  }
  out.weight = judged ? 0.0 : section.number("weight");
  return out;
}

/// The matrix of all judgements, row by row; every pair must be judged once.
std::vector<double> judged_matrix(Section& judgement, const std::vector<CriterionPlan>& criteria) {
  const std::size_t n = criteria.size();
  std::vector<double> matrix(n * n, 0.0);
  const auto place = [&](const std::string& name) {
    const auto found = std::find_if(criteria.begin(), criteria.end(),
                                    [&](const CriterionPlan& c) { return c.name == name; });
    if (found == criteria.end()) {
      judgement.fail("compare", fmt::format("names \"{}\", which is no criterion in force", name));
    }
    return static_cast<std::size_t>(found - criteria.begin());
  };
  for (const Section::Judgement& one : judgement.judgements("compare")) {
    const std::size_t i = place(one.first);
    const std::size_t j = place(one.second);
    if (i == j || matrix[i * n + j] != 0.0) {
      judgement.fail("compare",
                     fmt::format("judges \"{}\" and \"{}\" {}; each pair once", one.first,
                                 one.second, i == j ? "against itself" : "twice"));
    }
    matrix[i * n + j] = one.times;
    matrix[j * n + i] = 1.0 / one.times;
  }
  for (std::size_t i = 0; i < n; ++i) {
    matrix[i * n + i] = 1.0;
    for (std::size_t j = 0; j < i; ++j) {
      if (matrix[i * n + j] == 0.0) {
        judgement.fail("compare", fmt::format("does not judge \"{}\" against \"{}\"; add that pair",
                                              criteria[j].name, criteria[i].name));
      }
    }
  }
  return matrix;
}

/// Weights from judgements in pairs; judgements that contradict each other are refused.
void weigh(Section& judgement, std::vector<CriterionPlan>& criteria) {
  const JudgedWeights judged =
      judged_weights(judged_matrix(judgement, criteria), static_cast<int>(criteria.size()));
  const double accepted = judgement.number("accept_ratio");
  Reading& reading = judgement.reading();
  reading.record("criteria.judgement.consistency_ratio", shortest(judged.consistency_ratio), false,
                 "worked out from compare (Saaty)");
  if (judged.consistency_ratio > accepted) {
    judgement.fail(
        "compare",
        fmt::format("contradicts itself: consistency ratio {:.3f}, above {}; judge anew, "
                    "or set accept_ratio",
                    judged.consistency_ratio, shortest(accepted)));
  }
  for (std::size_t i = 0; i < criteria.size(); ++i) {
    criteria[i].weight = judged.weights[i];
    reading.record(fmt::format("criteria.{}.weight", criteria[i].name),
                   fmt::format("{:.6f}", judged.weights[i]), false,
                   "worked out from criteria.judgement");
  }
}

void check_together(const Section& section, const std::vector<CriterionPlan>& criteria) {
  if (criteria.empty()) {
    section.fail("growth", "is missing; [criteria] names no criterion, name one or take it out");
  }
  if (std::none_of(criteria.begin(), criteria.end(),
                   [](const CriterionPlan& c) { return c.weight > 0.0; })) {
    section.fail(criteria.front().name, "and the others weigh 0; give one a weight above 0");
  }
  const auto own = std::count_if(criteria.begin(), criteria.end(),
                                 [](const CriterionPlan& c) { return c.file.has_value(); });
  if (static_cast<std::size_t>(own) > kMaxOwn) {
    section.fail(criteria.back().name,
                 fmt::format("is one too many; {} of one's own at most", kMaxOwn));
  }
}

}  // namespace

std::vector<CriterionPlan> read_criteria(Reading& reading, const Crop& crop) {
  const Section section(reading, "criteria");
  if (section.given("access") && !Section(reading, "sites").given("landing")) {
    section.fail("access",
                 "needs [sites] landing = [lon, lat]; the measure is the way over water "
                 "to it, km");
  }
  if (section.given("waves") && !reading.root.contains("waves")) {
    section.fail("waves",
                 "needs [waves] winds; the measure is the significant wave height that is "
                 "exceeded once in fifty years, m");
  }
  std::vector<CriterionPlan> criteria;
  for (const std::string& name : names_in_force(section.table())) {
    criteria.push_back(read_one(reading, name, crop, section.given("judgement")));
  }
  if (section.given("judgement")) {
    Section judgement(reading, "criteria.judgement");
    weigh(judgement, criteria);
  }
  check_together(section, criteria);
  return criteria;
}

Combine read_combine(Reading& reading) {
  const std::string word = Section(reading, "criteria").text("combine");
  return word == "minimum" ? Combine::minimum : word == "both" ? Combine::both : Combine::geometric;
}

}  // namespace tidelot::planfile
