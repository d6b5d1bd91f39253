// SPDX-License-Identifier: Apache-2.0
// Prints the words of the command line as JSON: what words_files.py makes the page of commands and
// the completions of.
#include <CLI/CLI.hpp>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "cli/words.hpp"

namespace {

using Json = nlohmann::ordered_json;

Json option(const CLI::Option& each) {
  return {{"name", each.get_lnames().empty() ? each.get_single_name() : each.get_lnames().front()},
          {"text", each.get_option_text()},
          {"description", each.get_description()},
          {"takes", each.get_items_expected_max() > 0},
          {"many", each.get_items_expected_max() > 1},
          {"required", each.get_required()}};
}

Json command(const CLI::App& app) {
  Json out{{"name", app.get_name()},
           {"description", app.get_description()},
           {"positionals", Json::array()},
           {"options", Json::array()}};
  for (const CLI::Option* each : app.get_options()) {
    out[each->get_positional() ? "positionals" : "options"].push_back(option(*each));
  }
  return out;
}

}  // namespace

int main() {
  CLI::App app;
  tidelot::cli::Words words;
  tidelot::cli::add_commands(app, words);
  Json all = command(app);
  for (const CLI::App* each : app.get_subcommands([](const CLI::App*) { return true; })) {
    all["commands"].push_back(command(*each));
  }
  std::printf("%s\n", all.dump().c_str());
}
