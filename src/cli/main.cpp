// SPDX-License-Identifier: Apache-2.0
#include <CLI/CLI.hpp>
#include <chrono>
#include <cstdio>
#include <exception>
#include <new>
#include <string>
#include <thread>
#include <vector>

#include "cli/print.hpp"
#include "cli/words.hpp"
#include "run/resume/ranks.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/run.hpp"

namespace {

using namespace tidelot;

constexpr int kSignalBase = 128;

/// Processes of a job mostly fail alike, and the first one says it; the others wait so long for it
/// to end them before they speak for themselves.
constexpr std::chrono::seconds kFirstSpeaks(2);

/// One line on stderr, whatever the text holds. It ends the other processes of a job.
int fail(int status, const std::string& line) {
  if (run::place().rank > 0) {
    std::this_thread::sleep_for(kFirstSpeaks);
  }
  std::fprintf(stderr, "tidelot: %s\n", one_line(line).c_str());
  run::end_ranks(status);
  return status;
}

int run_words(int argc, char** argv) {
  CLI::App app;
  cli::Words words;
  cli::add_commands(app, words);
  try {
    app.parse(argc, argv);
  } catch (const CLI::Success& help) {
    return app.exit(help);
  } catch (const CLI::ParseError& problem) {
    const std::string unknown =
        cli::unknown_word(app, std::vector<std::string>(argv + 1, argv + argc));
    return fail(static_cast<int>(Fault::plan),
                (unknown.empty() ? problem.what() : unknown) + "; see tidelot --help");
  }
  const int status = words.command();
  cli::flush();
  return status;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run_words(argc, argv);
  } catch (const Error& error) {
    return fail(static_cast<int>(error.fault()), error.what());
  } catch (const StoppedRun& stop) {
    return fail(kSignalBase + stop.signal(), std::string("stopped by a signal; ") + stop.what());
  } catch (const Interrupted& stop) {
    return fail(kSignalBase + stop.signal(), "stopped by a signal; nothing was written");
  } catch (const std::bad_alloc&) {
    return fail(static_cast<int>(Fault::plan),
                "out of memory; use larger cells ([area] cell_m) or a smaller area");
  } catch (const std::exception& error) {
    return fail(static_cast<int>(Fault::input), std::string("unexpected: ") + error.what());
  }
}
