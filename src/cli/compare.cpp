// SPDX-License-Identifier: Apache-2.0
#include "tidelot/run/compare.hpp"

#include <fmt/format.h>

#include <cstdio>

#include "cli/commands.hpp"
#include "cli/print.hpp"
#include "cli/progress.hpp"
#include "cli/signals.hpp"
#include "report/compare/compare_words.hpp"
#include "tidelot/core/error.hpp"

namespace tidelot::cli {
namespace {

constexpr std::size_t kWidth = 100;

void print_table(const Comparison& all) {
  std::vector<std::vector<std::string>> rows{{"place", "estuary", "N kg, all sites", "P10 to P90",
                                              "N kg per 100 m", "cost per kg", "chance of first"}};
  const std::vector<MeasureOrder> orders = orders_of(all);
  const MeasureOrder& order = order_by(orders, kOrderMeasure);
  const auto value = [](const Bay& bay, std::string_view key) {
    for (const CompareMeasure& measure : compare_measures()) {
      if (measure.key == key) {
        return measure.of(bay);
      }
    }
    return Measured{};
  };
  const auto figure = [](const Measured& v, int decimals) {
    return v.best ? fmt::format("{:.{}f}", *v.best, decimals) : std::string("-");
  };
  for (std::size_t place = 0; place < order.order.size(); ++place) {
    const std::size_t bay = order.order[place];
    const Bay& one = all.bays[bay].bay;
    const Measured nitrogen = value(one, kOrderMeasure);
    rows.push_back({std::to_string(place + 1), all.bays[bay].name, figure(nitrogen, 2),
                    nitrogen.p10 ? fmt::format("{:.2f}-{:.2f}", *nitrogen.p10, *nitrogen.p90) : "-",
                    figure(value(one, "nitrogen_kg_per_100_m"), 3),
                    figure(value(one, "cost_per_kg"), 1),
                    order.places.empty() ? "-" : page::chance_words(order.places[bay][0])});
  }
  print(table(rows));
}

/// "warm-red-alga,sugar-kelp".
std::optional<CropPair> crop_pair(const std::string& words) {
  if (words.empty()) {
    return std::nullopt;
  }
  const std::size_t comma = words.find(',');
  CropPair pair{words.substr(0, comma), comma == std::string::npos ? "" : words.substr(comma + 1)};
  if (pair.first.empty() || pair.second.empty() || pair.first == pair.second ||
      pair.second.find(',') != std::string::npos) {
    throw Error(Fault::plan,
                fmt::format("--crops {}: write two crop profiles with a comma between them, such "
                            "as warm-red-alga,sugar-kelp; tidelot crops lists them",
                            words));
  }
  return pair;
}

}  // namespace

int compare(const CompareWords& words) {
  const std::atomic<int>& stop = catch_signals();
  CompareOptions options;
  options.run.out =
      words.out.empty() ? std::filesystem::path("compare-out") : std::filesystem::path(words.out);
  options.run.threads = words.threads;
  options.run.stop_signal = &stop;
  options.allow_different = words.allow_different;
  options.target_kg = words.target_kg;
  options.crops = crop_pair(words.crops);
  CompareSummary summary;
  {
    ProgressPrinter progress(words.quiet);
    options.run.progress = [&progress](const Progress& p) { progress(p); };
    const std::vector<std::filesystem::path> plans(words.plans.begin(), words.plans.end());
    summary = tidelot::compare(plans, options);
  }
  const Comparison& all = summary.comparison;
  for (const FailedBay& failed : all.failed) {
    std::fprintf(stderr, "tidelot: %s: %s\n", failed.plan.c_str(), failed.why.c_str());
  }
  for (const std::string& each : page::difference_sentences(all)) {
    std::fprintf(stderr, "warning: not measured alike: %s\n", each.c_str());
  }
  print_table(all);
  print("\n");
  for (const std::string& each : page::compare_sentences(all)) {
    print(wrapped(each, kWidth, 0) + "\n");
  }
  if (all.crops) {
    print("\n");
    for (const auto& more : {page::crop_sentences(all), page::assumed_sentences(all)}) {
      for (const std::string& each : more) {
        print(wrapped(each, kWidth, 0) + "\n");
      }
    }
  }
  for (const ComparedBay& one : all.bays) {
    if (one.target) {
      print(wrapped(one.name + ": " + page::target_words(*one.target, *all.target_kg, all.units),
                    kWidth, 2) +
            "\n");
    }
  }
  for (const std::string& name : summary.reused) {
    print(fmt::format("{}: its finished run was taken over.\n", name));
  }
  print(fmt::format("Results in {}{}; open compare.html there.\n", options.run.out.string(),
                    all.failed.empty() ? "" : " (" + state_words(all) + ")"));
  return all.failed.empty() ? 0 : 3;
}

}  // namespace tidelot::cli
