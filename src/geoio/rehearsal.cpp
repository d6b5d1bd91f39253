// SPDX-License-Identifier: Apache-2.0
#include "rehearsal.hpp"

#include <cpl_error.h>
#include <fmt/format.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <new>
#include <system_error>

namespace tidelot::geoio {
namespace {

constexpr int kOutOfMemory = 3;  // the child's exit status
constexpr std::size_t kBytesPerSecond = 2'000'000;
constexpr std::size_t kMegabyte = std::size_t{1} << 20;

void limit(int what, rlim_t most) {
  const rlimit both{most, most};
  ::setrlimit(static_cast<decltype(RLIMIT_CPU)>(what), &both);
}

/// Address space of this process, bytes.
std::size_t mapped() {
  std::ifstream pages("/proc/self/statm");
  std::size_t count = 0;
  pages >> count;
  return count * static_cast<std::size_t>(::sysconf(_SC_PAGESIZE));
}

void confine([[maybe_unused]] const ChildLimits& limits) {
  limit(RLIMIT_CORE, 0);
  limit(RLIMIT_FSIZE, 0);
  limit(RLIMIT_CPU, limits.cpu_s);
#if !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)  // they map terabytes
  limit(RLIMIT_AS, mapped() + limits.memory_mb * kMegabyte);
#endif
  std::signal(SIGXCPU, SIG_DFL);
  // An interrupt from the terminal reaches the child, too: only the parent answers it, and ends it.
  // A write beyond the limit fails; the library goes on or says so.
  for (const int signal : {SIGHUP, SIGINT, SIGTERM, SIGXFSZ}) {
    std::signal(signal, SIG_IGN);
  }
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);
}

/// The child's whole life. Nothing is flushed or destroyed at its end: all that is the parent's.
[[noreturn]] void live(const ChildLimits& limits, const std::function<void()>& decode) {
  confine(limits);
  int status = 0;
  try {
    decode();
  } catch (const std::bad_alloc&) {
    status = kOutOfMemory;
  } catch (...) {
    status = CPLGetLastErrorNo() == CPLE_OutOfMemory ? kOutOfMemory : 0;
  }
  ::_exit(status);  // ends the child
}

/// How the child ended; ends it where this process is asked to stop.
int end_of(pid_t child, const std::atomic<int>* stop) {
  int status = 0;
  while (::waitpid(child, &status, 0) < 0) {
    if (errno != EINTR) {
      throw std::system_error(errno, std::generic_category(), "waitpid");
    }
    if (stop != nullptr && stop->load() != 0) {
      ::kill(child, SIGKILL);
      ::waitpid(child, &status, 0);
      throw Interrupted(stop->load());
    }
  }
  return status;
}

std::string why_it_died(int signal, const ChildLimits& limits) {
  if (signal == SIGXCPU || signal == SIGKILL) {
    return fmt::format("takes more than {} s of processor time to read", limits.cpu_s);
  }
  return fmt::format("kills the library that reads it (signal {})", signal);
}

constexpr const char* kRemedy =
    "the file is damaged, or made to do harm; get it anew, or from elsewhere";

}  // namespace

ChildLimits limits_for(const InputFile& input) {
  std::error_code ignored;
  const auto bytes = std::filesystem::file_size(input.path, ignored);
  ChildLimits limits;
  limits.cpu_s += ignored ? 0U : static_cast<unsigned>(bytes / kBytesPerSecond);
  return limits;
}

void rehearse(const InputFile& input, const ChildLimits& limits,
              const std::function<void()>& decode, const std::atomic<int>* stop) {
  const pid_t child = ::fork();
  if (child < 0) {
    throw input.error("no process can be started to read it safely; close other programs");
  }
  if (child == 0) {
    live(limits, decode);
  }
  const int status = end_of(child, stop);
  if (WIFSIGNALED(status)) {
    throw input.error(why_it_died(WTERMSIG(status), limits) + "; " + kRemedy);
  }
  if (WEXITSTATUS(status) == kOutOfMemory) {
    throw input.error(
        fmt::format("takes more than {} MB of memory to read; {}", limits.memory_mb, kRemedy));
  }
}

}  // namespace tidelot::geoio
