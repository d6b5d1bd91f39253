// SPDX-License-Identifier: Apache-2.0
#include "cli/words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <string_view>
#include <vector>

#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/core/version.hpp"

namespace tidelot::cli {
namespace {

/// What runs that end in a report share. The option of the sheets.
CLI::Option* add_run_words(CLI::App& command, ScoutWords& words) {
  command.add_option("plan", words.plan, "The plan file")->required()->option_text("PLAN");
  command.add_option("--out", words.out, "Folder for the results (PLAN-out beside the plan)")
      ->option_text("DIR");
  command
      .add_option("--threads", words.threads,
                  "Workers (one a core; one a process under an MPI launcher)")
      ->check(CLI::Range(1, 1024))
      ->option_text("N");
  command
      .add_option("--memory", words.memory,
                  "Most memory that the run may hold, such as 800M or 1.5G; a run that would need "
                  "more does not start")
      ->option_text("SIZE");
  command.add_flag("--quiet", words.quiet, "No progress");
  return command.add_option("--sheets", words.sheets, "Folder for the sheets for print as PDF")
      ->option_text("DIR");
}

void add_scout(CLI::App& app, Words& all) {
  ScoutWords& words = all.scout;
  CLI::App* command = app.add_subcommand("scout", "Map a bay and rank its sites (the main job)");
  CLI::Option* sheets = add_run_words(*command, words);
  CLI::Option* resume =
      command->add_flag("--resume", words.resume, "Go on with a run that was stopped");
  command->add_option("--part", words.part, "Only part K of N, for tidelot join")
      ->excludes(resume)
      ->excludes(sheets)
      ->option_text("K/N");
  command->callback([&] { all.command = [&] { return scout(words); }; });
}

void add_join(CLI::App& app, Words& all) {
  ScoutWords& words = all.join;
  CLI::App* command =
      app.add_subcommand("join", "Make the results of a run that was computed in parts");
  add_run_words(*command, words);
  command->callback([&] { all.command = [&] { return join(words); }; });
}

void add_check(CLI::App& app, Words& all) {
  CheckWords& words = all.check;
  CLI::App* command =
      app.add_subcommand("check", "Open every layer of a plan and say what it is; run nothing");
  command->add_option("plan", words.plan, "The plan file")->required()->option_text("PLAN");
  command->add_flag("--json", words.json, "Everything of the table as JSON instead");
  command->callback([&] { all.command = [&] { return check(words.plan, words.json); }; });
}

void add_explain(CLI::App& app, Words& all) {
  ExplainWords& words = all.explain;
  CLI::App* command =
      app.add_subcommand("explain", "One place: the season, what limits it, which rules touch it");
  command->add_option("plan", words.plan, "The plan file")->required()->option_text("PLAN");
  command->add_option("--at", words.at, "The place, degrees WGS 84")
      ->required()
      ->option_text("LON,LAT");
  CLI::Option* csv = command->add_flag("--csv", words.csv, "The daily series as CSV instead");
  command->add_flag("--json", words.json, "Everything of the text as JSON instead")->excludes(csv);
  command->callback([&] {
    all.command = [&] {
      return explain(words.plan, parse_lonlat(words.at),
                     words.csv    ? ExplainAs::csv
                     : words.json ? ExplainAs::json
                                  : ExplainAs::text);
    };
  });
}

void add_compare(CLI::App& app, Words& all) {
  CompareWords& words = all.compare;
  CLI::App* command = app.add_subcommand("compare", "Estuaries side by side, on equal terms");
  command->add_option("plans", words.plans, "The plan files, 2 to 20")
      ->required()
      ->option_text("PLAN PLAN...");
  command->add_option("--out", words.out, "Folder for the results (compare-out here)")
      ->option_text("DIR");
  command->add_option("--threads", words.threads, "Workers (one a core)")
      ->check(CLI::Range(1, 1024))
      ->option_text("N");
  command
      ->add_option("--target-kg", words.target_kg,
                   "What each needs for so much nitrogen a year, kg")
      ->check(CLI::Range(1e-3, 1e12))
      ->option_text("X");
  command->add_flag("--allow-different", words.allow_different,
                    "Go on where crop, farm, money or sites differ; it is printed");
  command->add_flag("--quiet", words.quiet, "No progress");
  command
      ->add_option("--crops", words.crops,
                   "Two crops a year: each alone, and in turn on the same lines")
      ->option_text("A,B");
  command->callback([&] { all.command = [&] { return compare(words); }; });
}

void add_crops(CLI::App& app, Words& all) {
  CLI::App* command = app.add_subcommand("crops", "Crop profiles with their sources");
  command->add_option("name", all.crop, "One profile in full")->option_text("NAME");
  command->callback([&] { all.command = [&] { return crops(all.crop); }; });
}

void add_start(CLI::App& app, Words& all) {
  CLI::App* command = app.add_subcommand("start", "Write a commented plan to begin from");
  command->add_option("folder", all.folder, "A folder")->required()->option_text("DIR");
  command->callback([&] { all.command = [&] { return start(all.folder); }; });
}

std::string unknown(std::string_view kind, std::string_view word,
                    const std::vector<std::string>& known) {
  const std::string near = nearest_word(word, known);
  return fmt::format("unknown {} \"{}\"; {}", kind, word,
                     near.empty() ? fmt::format("known are {}", fmt::join(known, ", "))
                                  : fmt::format("did you mean \"{}\"?", near));
}

std::vector<std::string> long_options(const CLI::App& command) {
  std::vector<std::string> names;
  for (const CLI::Option* option : command.get_options()) {
    for (const std::string& name : option->get_lnames()) {
      names.push_back("--" + name);
    }
  }
  return names;
}

}  // namespace

std::string unknown_word(const CLI::App& app, std::span<const std::string> words) {
  if (words.empty() || words[0].starts_with('-')) {
    return "";
  }
  std::vector<std::string> names;
  const CLI::App* command = nullptr;
  for (const CLI::App* each : app.get_subcommands({})) {
    names.push_back(each->get_name());
    command = each->get_name() == words[0] ? each : command;
  }
  if (command == nullptr) {
    return unknown("command", words[0], names);
  }
  const std::vector<std::string> options = long_options(*command);
  for (const std::string& word : words.subspan(1)) {
    const std::string option = word.substr(0, word.find('='));
    if (option.starts_with("--") && option.size() > 2 &&
        std::find(options.begin(), options.end(), option) == options.end()) {
      return unknown("option", option, options);
    }
  }
  return "";
}

void add_commands(CLI::App& app, Words& words) {
  app.description(
      "Finds the places in a bay where seaweed lines can grow and carry nitrogen out.\n"
      "Planning use - not for navigation - not a survey.");
  app.set_version_flag("--version", "tidelot " + std::string(version()));
  app.require_subcommand(1);
  app.failure_message(CLI::FailureMessage::simple);
  add_scout(app, words);
  add_join(app, words);
  add_check(app, words);
  add_explain(app, words);
  add_compare(app, words);
  add_crops(app, words);
  add_start(app, words);
}

}  // namespace tidelot::cli
