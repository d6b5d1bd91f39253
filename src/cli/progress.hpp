// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <chrono>
#include <string>

#include "tidelot/run.hpp"

namespace tidelot::cli {

/// "growing and scoring  45 %  1.2 M cells/s  3 s left"
[[nodiscard]] std::string progress_line(const Progress& progress);

/// One line on stderr that is written over, when stderr is a terminal; silent otherwise.
class ProgressPrinter {
 public:
  explicit ProgressPrinter(bool quiet);
  ~ProgressPrinter();
  ProgressPrinter(const ProgressPrinter&) = delete;
  ProgressPrinter& operator=(const ProgressPrinter&) = delete;
  void operator()(const Progress& progress);

 private:
  bool on_;
  bool wrote_ = false;
  std::string stage_;
  std::chrono::steady_clock::time_point last_;
};

}  // namespace tidelot::cli
