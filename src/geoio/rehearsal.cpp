// SPDX-License-Identifier: Apache-2.0
#include "rehearsal.hpp"

#include <cpl_error.h>
#include <fmt/format.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <new>
#include <system_error>

#include "geoio.hpp"

namespace tidelot::geoio {
namespace {

constexpr int kOutOfMemory = 3;  // the child's exit status
constexpr std::size_t kBytesPerSecond = 2'000'000;
constexpr std::size_t kMegabyte = std::size_t{1} << 20;

void limit(int what, rlim_t most) {
  const rlimit both{most, most};
  ::setrlimit(static_cast<decltype(RLIMIT_CPU)>(what), &both);
}

/// So many seconds of processor time from now on.
void limit_time(unsigned seconds) {
  rusage used{};
  ::getrusage(RUSAGE_SELF, &used);
  rlimit time{};
  ::getrlimit(RLIMIT_CPU, &time);
  time.rlim_cur = static_cast<rlim_t>(used.ru_utime.tv_sec + used.ru_stime.tv_sec) + 1 + seconds;
  ::setrlimit(RLIMIT_CPU, &time);
}

/// Address space of this process, bytes.
std::size_t mapped() {
  std::ifstream pages("/proc/self/statm");
  std::size_t count = 0;
  pages >> count;
  return count * static_cast<std::size_t>(::sysconf(_SC_PAGESIZE));
}

void confine([[maybe_unused]] std::size_t memory_mb) {
  limit(RLIMIT_CORE, 0);
  limit(RLIMIT_FSIZE, 0);
#if !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)  // they map terabytes
  limit(RLIMIT_AS, mapped() + memory_mb * kMegabyte);
#endif
  for (const int signal : {SIGXCPU, SIGABRT, SIGSEGV}) {
    std::signal(signal, SIG_DFL);
  }
  // An interrupt from the terminal reaches the child, too: only the parent answers it, and ends it.
  // A write beyond the limit fails; the library goes on or says so.
  for (const int signal : {SIGHUP, SIGINT, SIGTERM, SIGXFSZ}) {
    std::signal(signal, SIG_IGN);
  }
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);
  before_abort([](const char*) { ::_exit(kOutOfMemory); });  // ends the child
}

/// The exit status of a child that decodes this.
int status_of(const std::function<void()>& decode) {
  try {
    decode();
  } catch (const std::bad_alloc&) {
    return kOutOfMemory;
  } catch (...) {
    return CPLGetLastErrorNo() == CPLE_OutOfMemory ? kOutOfMemory : 0;
  }
  return 0;
}

/// The child's whole life. Nothing is flushed or destroyed at its end: all that is the parent's.
[[noreturn]] void live(const ChildLimits& limits, const std::function<void()>& decode) {
  confine(limits.memory_mb);
  limit(RLIMIT_CPU, limits.cpu_s);
  ::_exit(status_of(decode));  // ends the child
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

/// Children that are not waited for any more are ended.
class Children {
 public:
  Children() = default;
  Children(const Children&) = delete;
  Children& operator=(const Children&) = delete;
  ~Children() {
    for (const pid_t child : running_) {
      ::kill(child, SIGKILL);
      ::waitpid(child, nullptr, 0);
    }
  }
  void add(pid_t child) { running_.push_back(child); }
  void wait(const std::atomic<int>* stop) {
    while (!running_.empty()) {
      const pid_t child = running_.back();
      running_.pop_back();  // end_of ends it, whatever happens
      end_of(child, stop);
    }
  }

 private:
  std::vector<pid_t> running_;
};

/// What the children of rehearse_together have in common with each other and with their parent.
class Board {
 public:
  explicit Board(std::size_t count)
      : bytes_(sizeof(std::atomic<std::size_t>) + count),
        memory_(
            ::mmap(nullptr, bytes_, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0)) {
    if (memory_ != MAP_FAILED) {
      new (memory_) std::atomic<std::size_t>(0);
    }
  }
  ~Board() {
    if (good()) {
      ::munmap(memory_, bytes_);
    }
  }
  Board(const Board&) = delete;
  Board& operator=(const Board&) = delete;
  [[nodiscard]] bool good() const { return memory_ != MAP_FAILED; }
  /// The number of the next one to be taken.
  [[nodiscard]] std::size_t take() {
    return static_cast<std::atomic<std::size_t>*>(memory_)->fetch_add(1);
  }
  [[nodiscard]] std::uint8_t* marks() {
    return static_cast<std::uint8_t*>(memory_) + sizeof(std::atomic<std::size_t>);
  }

 private:
  std::size_t bytes_;
  void* memory_;
};
static_assert(std::atomic<std::size_t>::is_always_lock_free);  // shared between processes

/// The life of one of several children: it takes what nobody has taken, until nothing is left.
[[noreturn]] void live_together(std::span<const Rehearsal> all, std::size_t memory_mb,
                                Board& board) {
  confine(memory_mb);
  for (std::size_t i = board.take(); i < all.size(); i = board.take()) {
    limit_time(all[i].limits.cpu_s);
    if (const int status = status_of([&] { board.marks()[i] = all[i].decode(); }); status != 0) {
      ::_exit(status);  // ends the child
    }
  }
  ::_exit(0);  // ends the child
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

std::vector<std::uint8_t> rehearse_together(std::span<const Rehearsal> all, int children,
                                            const std::atomic<int>* stop) {
  std::vector<std::uint8_t> decoded(all.size(), 0);
  Board board(all.size());
  Children running;
  for (int i = 0; board.good() && i < children; ++i) {
    const pid_t child = ::fork();
    if (child == 0) {
      live_together(all, ChildLimits{}.memory_mb / static_cast<std::size_t>(children), board);
    }
    if (child > 0) {
      running.add(child);
    }
  }
  running.wait(stop);
  if (board.good()) {
    std::copy_n(board.marks(), all.size(), decoded.begin());
  }
  return decoded;
}

}  // namespace tidelot::geoio
