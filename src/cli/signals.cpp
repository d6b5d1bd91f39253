// SPDX-License-Identifier: Apache-2.0
#include "cli/signals.hpp"

#include <unistd.h>

#include <csignal>
#include <string_view>

namespace tidelot::cli {
namespace {

std::atomic<int> caught{0};
static_assert(std::atomic<int>::is_always_lock_free, "a signal handler may not wait");

extern "C" void note_signal(int signal) { caught.store(signal); }

constexpr std::string_view kLibraryGaveUp =
    "tidelot: a library gave up, most likely for want of memory; nothing was written: give the run "
    "more memory, or larger cells ([area] cell_m)\n";

extern "C" void say_why(int) {
  [[maybe_unused]] const auto told =
      ::write(STDERR_FILENO, kLibraryGaveUp.data(), kLibraryGaveUp.size());
  ::_exit(kGaveUp);
}

}  // namespace

void speak_before_abort() { std::signal(SIGABRT, say_why); }

const std::atomic<int>& catch_signals() {
  struct sigaction action = {};
  action.sa_handler = note_signal;
  action.sa_flags = static_cast<int>(SA_RESETHAND);  // the second time it acts as it always does
  sigemptyset(&action.sa_mask);
  for (const int signal : {SIGHUP, SIGINT, SIGTERM}) {
    sigaction(signal, &action, nullptr);
  }
  std::signal(SIGXFSZ, SIG_IGN);  // a file grown too large is then a failed write, with its name
  return caught;
}

}  // namespace tidelot::cli
