// SPDX-License-Identifier: Apache-2.0
#include "cli/progress.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>

namespace tidelot::cli {

std::string progress_line(const Progress& p) {
  if (p.total == 0 || p.done == 0 || p.seconds <= 0.0) {
    return p.stage;
  }
  const double rate = static_cast<double>(p.done) / p.seconds;
  const double left = static_cast<double>(p.total - p.done) / rate;
  return fmt::format("{}  {:3.0f} %  {:.2f} M cells/s  {:.0f} s left", p.stage,
                     100.0 * static_cast<double>(p.done) / static_cast<double>(p.total), rate / 1e6,
                     left);
}

ProgressPrinter::ProgressPrinter(bool quiet) : on_(!quiet && isatty(STDERR_FILENO) == 1) {}

ProgressPrinter::~ProgressPrinter() {
  if (wrote_) {
    std::fputs("\r\x1b[K", stderr);
  }
}

void ProgressPrinter::operator()(const Progress& progress) {
  using std::chrono::steady_clock;
  const bool new_stage = progress.stage != stage_;
  if (!on_ || (!new_stage && steady_clock::now() - last_ < std::chrono::milliseconds(100))) {
    return;
  }
  stage_ = progress.stage;
  last_ = steady_clock::now();
  wrote_ = true;
  fmt::print(stderr, "\r{}\x1b[K", progress_line(progress));
  std::fflush(stderr);
}

}  // namespace tidelot::cli
