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
std::string at_abort, at_fault;

void tell(const std::string& line) {
  [[maybe_unused]] const auto told = ::write(STDERR_FILENO, line.data(), line.size());
}

extern "C" void say_why(int) {
  tell(at_abort);
  ::_exit(kGaveUp);
}

/// The fault comes again where this returns, and then ends the program as it ends any.
extern "C" void say_fault(int) { tell(at_fault); }

void speak_before_fault() {
#if !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)  // they have more to say
  struct sigaction action = {};
  action.sa_handler = say_fault;
  action.sa_flags = static_cast<int>(SA_RESETHAND);
  sigemptyset(&action.sa_mask);
  sigaction(SIGSEGV, &action, nullptr);
#endif
}

}  // namespace

void speak_before_abort(std::string_view advice) {
  const std::string why =
      fmt::format(", most likely for want of memory; nothing was written{}\n", advice);
  at_abort = "tidelot: a library gave up" + why;
  at_fault = "tidelot: ended by a fault of the program or of a library" + why;
  speak_before_fault();
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
