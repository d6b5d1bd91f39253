// SPDX-License-Identifier: Apache-2.0
#include "run/memory/page_keeper.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <chrono>
#include <cstdio>
#include <limits>

#include "run/memory/mapped_cells.hpp"

namespace tidelot::run {
namespace {

/// Pages that the system still has come back at some 20 GB a second: 20 MB between two looks.
constexpr std::chrono::milliseconds kBetweenLooks(1);

/// The system's own count, which stays open: it is looked at often.
class Count {
 public:
  Count() : fd_(::open("/proc/self/statm", O_RDONLY | O_CLOEXEC)) {}
  ~Count() { ::close(fd_); }
  Count(const Count&) = delete;
  Count& operator=(const Count&) = delete;

  [[nodiscard]] Resident resident() const {
    std::array<char, 128> text{};
    unsigned long all = 0, of_files = 0;
    if (::pread(fd_, text.data(), text.size() - 1, 0) > 0) {
      std::sscanf(text.data(), "%*u %lu %lu", &all, &of_files);
    }
    return {all * page_, of_files * page_};
  }

 private:
  int fd_;
  std::size_t page_ = static_cast<std::size_t>(::sysconf(_SC_PAGESIZE));
};

/// Bytes of files that the process may hold.
std::atomic<std::size_t> most_of_files{std::numeric_limits<std::size_t>::max()};

void look_at(const Count& count) noexcept {
  if (count.resident().of_files > most_of_files) {
    MappedCells::release_all();
  }
}

}  // namespace

Resident resident_memory() { return Count().resident(); }

PageKeeper::PageKeeper(std::size_t most) : before_(resident_memory().of_files) {
  hold(most);
  thread_ = std::thread([this] { keep(); });
}

PageKeeper::~PageKeeper() {
  {
    const std::scoped_lock lock(mutex_);
    over_ = true;
  }
  changed_.notify_one();
  thread_.join();
  most_of_files = std::numeric_limits<std::size_t>::max();
}

void PageKeeper::hold(std::size_t most) noexcept { most_of_files = most + before_; }

void PageKeeper::look() noexcept {
  static const Count count;
  look_at(count);
}

void PageKeeper::keep() {
  const Count count;
  std::unique_lock lock(mutex_);
  while (!changed_.wait_for(lock, kBetweenLooks, [this] { return over_; })) {
    look_at(count);
  }
}

}  // namespace tidelot::run
