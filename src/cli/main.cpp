// SPDX-License-Identifier: Apache-2.0
#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>
#include <functional>
#include <new>
#include <string>

#include "cli/commands.hpp"
#include "cli/print.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/version.hpp"

namespace {

using namespace tidelot;

constexpr int kSignalBase = 128;

/// One line on stderr, whatever the text holds.
int fail(int status, std::string line) {
  for (char& c : line) {
    c = c == '\n' || c == '\r' ? ' ' : c;
  }
  std::fprintf(stderr, "tidelot: %s\n", line.c_str());
  return status;
}

/// What the words ask for; set by the command's callback.
struct Request {
  std::function<int()> command;
};

void add_scout(CLI::App& app, cli::ScoutWords& words, bool& resume, Request& request) {
  CLI::App* command = app.add_subcommand("scout", "Map a bay and rank its sites (the main job)");
  command->add_option("plan", words.plan, "The plan file")->required()->option_text("PLAN");
  command->add_option("--out", words.out, "Folder for the results (PLAN-out beside the plan)")
      ->option_text("DIR");
  command->add_option("--threads", words.threads, "Workers (one a core)")
      ->check(CLI::Range(1, 1024))
      ->option_text("N");
  command->add_flag("--resume", resume, "Go on with an interrupted run (not yet supported)");
  command->add_option("--sheets", words.sheets, "Folder for the sheets for print as PDF")
      ->option_text("DIR");
  command->add_flag("--quiet", words.quiet, "No progress");
  command->callback([&] {
    request.command = [&] {
      if (resume) {
        throw Error(Fault::plan, "--resume: not yet supported; run without it");
      }
      return cli::scout(words);
    };
  });
}

struct CheckWords {
  std::string plan;
  bool json = false;
};

void add_check(CLI::App& app, CheckWords& words, Request& request) {
  CLI::App* command =
      app.add_subcommand("check", "Open every layer of a plan and say what it is; run nothing");
  command->add_option("plan", words.plan, "The plan file")->required()->option_text("PLAN");
  command->add_flag("--json", words.json, "Everything of the table as JSON instead");
  command->callback([&] { request.command = [&] { return cli::check(words.plan, words.json); }; });
}

struct ExplainWords {
  std::string plan;
  std::string at;
  bool csv = false;
  bool json = false;
};

void add_explain(CLI::App& app, ExplainWords& words, Request& request) {
  CLI::App* command =
      app.add_subcommand("explain", "One place: the season, what limits it, which rules touch it");
  command->add_option("plan", words.plan, "The plan file")->required()->option_text("PLAN");
  command->add_option("--at", words.at, "The place, degrees WGS 84")
      ->required()
      ->option_text("LON,LAT");
  CLI::Option* csv = command->add_flag("--csv", words.csv, "The daily series as CSV instead");
  command->add_flag("--json", words.json, "Everything of the text as JSON instead")->excludes(csv);
  command->callback([&] {
    request.command = [&] {
      return cli::explain(words.plan, cli::parse_lonlat(words.at),
                          words.csv    ? cli::ExplainAs::csv
                          : words.json ? cli::ExplainAs::json
                                       : cli::ExplainAs::text);
    };
  });
}

void add_compare(CLI::App& app, cli::CompareWords& words, std::string& crops, Request& request) {
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
                    "Go on where crop, farm or money differ; it is printed");
  command->add_flag("--quiet", words.quiet, "No progress");
  command->add_option("--crops", crops, "Two crops side by side (not yet supported)")
      ->option_text("A,B");
  command->callback([&] {
    request.command = [&] {
      if (!crops.empty()) {
        throw Error(Fault::plan, "--crops: not yet supported; run without it");
      }
      return cli::compare(words);
    };
  });
}

void add_crops(CLI::App& app, std::string& name, Request& request) {
  CLI::App* command = app.add_subcommand("crops", "Crop profiles with their sources");
  command->add_option("name", name, "One profile in full")->option_text("NAME");
  command->callback([&] { request.command = [&] { return cli::crops(name); }; });
}

void add_start(CLI::App& app, std::string& folder, Request& request) {
  CLI::App* command = app.add_subcommand("start", "Write a commented plan to begin from");
  command->add_option("folder", folder, "A folder")->required()->option_text("DIR");
  command->callback([&] { request.command = [&] { return cli::start(folder); }; });
}

int run(int argc, char** argv) {
  CLI::App app{
      "Finds the places in a bay where seaweed lines can grow and carry nitrogen out.\n"
      "Planning use - not for navigation - not a survey."};
  app.set_version_flag("--version", "tidelot " + std::string(version()));
  app.require_subcommand(1);
  app.failure_message(CLI::FailureMessage::simple);
  Request request;
  cli::ScoutWords words;
  CheckWords looked_at;
  ExplainWords place;
  cli::CompareWords bays;
  std::string name, crops;
  bool resume = false;
  add_scout(app, words, resume, request);
  add_check(app, looked_at, request);
  add_explain(app, place, request);
  add_compare(app, bays, crops, request);
  add_crops(app, name, request);
  add_start(app, name, request);
  try {
    app.parse(argc, argv);
  } catch (const CLI::Success& help) {
    return app.exit(help);
  } catch (const CLI::ParseError& problem) {
    return fail(static_cast<int>(Fault::plan),
                std::string(problem.what()) + "; see tidelot --help");
  }
  const int status = request.command();
  cli::flush();
  return status;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const Error& error) {
    return fail(static_cast<int>(error.fault()), error.what());
  } catch (const Interrupted& stop) {
    return fail(kSignalBase + stop.signal(), "stopped by a signal; nothing was written");
  } catch (const std::bad_alloc&) {
    return fail(static_cast<int>(Fault::plan),
                "out of memory; use larger cells ([area] cell_m) or a smaller area");
  } catch (const std::exception& error) {
    return fail(static_cast<int>(Fault::input), std::string("unexpected: ") + error.what());
  }
}
