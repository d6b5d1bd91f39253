// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <span>
#include <string>

#include "cli/commands.hpp"

namespace CLI {
class App;
}

namespace tidelot::cli {

struct CheckWords {
  std::string plan;
  bool json = false;
};

struct ExplainWords {
  std::string plan;
  std::string at;
  bool csv = false;
  bool json = false;
};

/// What stands on the command line.
struct Words {
  ScoutWords scout;
  ScoutWords join;
  CheckWords check;
  ExplainWords explain;
  CompareWords compare;
  std::string crop;
  std::string folder;
  std::function<int()> command;  ///< what it asks for; set by parsing
};

/// Describes every command and option to the parser, the one place that does: help, completions and
/// the page of commands follow from it. The words must outlive the app.
void add_commands(CLI::App& app, Words& words);

/// The first word of a command line that names no command or no option, with the one that it is
/// near to: "unknown command \"scuot\"; did you mean \"scout\"?". "" where all are known.
[[nodiscard]] std::string unknown_word(const CLI::App& app, std::span<const std::string> words);

}  // namespace tidelot::cli
