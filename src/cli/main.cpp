// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <new>
#include <string>
#include <system_error>
#include <thread>
#include <vector>

#include "cli/print.hpp"
#include "cli/signals.hpp"
#include "cli/words.hpp"
#include "geoio/geoio.hpp"
#include "run/resume/ranks.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/run.hpp"

namespace {

using namespace tidelot;

constexpr int kSignalBase = 128;
constexpr const char* kTooLittle =
    "; give the run more memory, or larger cells ([area] cell_m), or a smaller area";
constexpr const char* kOutOfMemory =
    "tidelot: out of memory; give the run more memory, or larger cells ([area] cell_m), or a "
    "smaller area\n";

/// Processes of a job mostly fail alike, and the first one says it; the others wait so long for it
/// to end them before they speak for themselves.
constexpr std::chrono::seconds kFirstSpeaks(2);

/// A whole line on stderr. It ends the other processes of a job.
int say(int status, const char* line) {
  if (run::place().rank > 0) {
    std::this_thread::sleep_for(kFirstSpeaks);
  }
  std::fputs(line, stderr);
  run::end_ranks(status);
  return status;
}

/// One line, whatever the text holds.
int fail(int status, const std::string& line) {
  return say(status, fmt::format("tidelot: {}\n", one_line(line)).c_str());
}

/// A library gives up. Whatever it holds is in an unknown state: nothing is tidied, and results of
/// an earlier run stand as they were.
[[noreturn]] void end_at_once(const char* what) {
  const int status = static_cast<int>(Fault::plan);
  fail(status, fmt::format("out of memory ({}){}", what, kTooLittle));
  std::_Exit(status);
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
    cli::speak_before_abort(kTooLittle);
    geoio::before_abort(end_at_once);
    return run_words(argc, argv);
  } catch (const Error& error) {
    return fail(static_cast<int>(error.fault()), error.what());
  } catch (const StoppedRun& stop) {
    return fail(kSignalBase + stop.signal(), std::string("stopped by a signal; ") + stop.what());
  } catch (const Interrupted& stop) {
    return fail(kSignalBase + stop.signal(), "stopped by a signal; nothing was written");
  } catch (const std::bad_alloc&) {
    return say(static_cast<int>(Fault::plan), kOutOfMemory);  // a text made anew would ask for more
  } catch (const std::system_error& error) {
    if (error.code() != std::errc::resource_unavailable_try_again) {
      return fail(static_cast<int>(Fault::input), std::string("unexpected: ") + error.what());
    }
    return fail(static_cast<int>(Fault::plan),
                "no thread or process can be started; close other programs, or give the run more "
                "memory");
  } catch (const std::exception& error) {
    return fail(static_cast<int>(Fault::input), std::string("unexpected: ") + error.what());
  }
}
