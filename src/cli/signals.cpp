// SPDX-License-Identifier: Apache-2.0
#include "cli/signals.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <csignal>
#include <exception>
#include <string>

namespace tidelot::cli {
namespace {

std::atomic<int> caught{0};
static_assert(std::atomic<int>::is_always_lock_free, "a signal handler may not wait");

extern "C" void note_signal(int signal) { caught.store(signal); }

/// Made beforehand: a signal handler may not take memory.
std::string last_words;

extern "C" void say_why(int) {
  [[maybe_unused]] const auto told = ::write(STDERR_FILENO, last_words.data(), last_words.size());
  ::_exit(kGaveUp);
}

}  // namespace

void speak_before_abort(std::string_view advice) {
  last_words = fmt::format(
      "tidelot: a library gave up, most likely for want of memory; nothing was written{}\n",
      advice);
  std::signal(SIGABRT, say_why);
  std::set_terminate([] { std::raise(SIGABRT); });  // its own handler speaks, too
}

const std::atomic<int>& catch_signals() {
  struct sigaction action = {};
  action.sa_handler = note_signal;
  action.sa_flags = static_cast<int>(SA_RESETHAND);  // the second time it acts as it always does
  sigemptyset(&action.sa_mask);
  for (const int signal : {SIGHUP, SIGINT, SIGTERM}) {
    struct sigaction before = {};
    sigaction(signal, nullptr, &before);
    if (before.sa_handler != SIG_IGN) {  // else nohup or a shell said so
      sigaction(signal, &action, nullptr);
    }
  }
  std::signal(SIGXFSZ, SIG_IGN);  // a file grown too large is then a failed write, with its name
  return caught;
}

}  // namespace tidelot::cli
