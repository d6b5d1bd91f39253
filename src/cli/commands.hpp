// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "tidelot/core/grid.hpp"
#include "tidelot/run.hpp"

namespace tidelot::cli {

struct ScoutWords {
  std::string plan;
  std::string out;       ///< "": the plan's name + "-out" beside it
  std::string sheets{};  ///< folder for the sheets as PDF; "": none
  int threads = 0;
  bool quiet = false;
  bool resume = false;
  std::string part{};    ///< "K/N"; "": the whole run
  std::string memory{};  ///< "1G"; "": no ceiling
};

struct CompareWords {
  std::vector<std::string> plans;
  std::string out;  ///< "": compare-out in the working folder
  int threads = 0;
  bool quiet = false;
  bool allow_different = false;
  std::optional<double> target_kg;
  std::string crops;  ///< "A,B"; "": each plan's own
};

/// How one place is told.
enum class ExplainAs { text, csv, json };

/// One function a command; each prints to stdout and returns the exit status. Failures are thrown.
int scout(const ScoutWords& words);
int join(const ScoutWords& words);
int compare(const CompareWords& words);
int check(const std::string& plan, bool json);
int explain(const std::string& plan, LonLat at, ExplainAs form);
int crops(const std::string& name);
int start(const std::string& folder);

/// "2/8" -> the second of eight parts. Throws Error(plan).
[[nodiscard]] Part parse_part(const std::string& text);

/// "512M", "1.5G" -> bytes. Throws Error(plan).
[[nodiscard]] std::size_t parse_memory(const std::string& text);

/// "-30.05,41.03" -> position. Throws Error(plan).
[[nodiscard]] LonLat parse_lonlat(const std::string& text);

}  // namespace tidelot::cli
