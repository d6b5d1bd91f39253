// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <condition_variable>
#include <cstddef>
#include <mutex>
#include <thread>

namespace tidelot::run {

/// Pages of mapped files that a run holds for what it walks through row by row, bytes.
inline constexpr std::size_t kMostPages = std::size_t{128} << 20U;

/// While it lives, a thread gives the pages of mapped files back whenever the process holds more of
/// them than it may. It looks every millisecond, or later where other threads have the processors;
/// who walks over a whole grid looks, too. No result hangs on it.
class PageKeeper {
 public:
  /// most: bytes above those that the process holds of files (its program and libraries) now.
  explicit PageKeeper(std::size_t most);
  ~PageKeeper();
  PageKeeper(const PageKeeper&) = delete;
  PageKeeper& operator=(const PageKeeper&) = delete;

  /// What it may hold from now on, likewise.
  void hold(std::size_t most) noexcept;
  /// Does what the thread does, now. Nothing where no keeper lives.
  static void look() noexcept;

 private:
  void keep();

  std::mutex mutex_;
  std::condition_variable changed_;
  std::size_t before_;  ///< bytes of files that the process held when it began
  bool over_ = false;
  std::thread thread_;
};

/// Bytes that the process holds in memory now.
struct Resident {
  std::size_t all = 0;
  std::size_t of_files = 0;  ///< of them, of its program, libraries and mapped files
};
[[nodiscard]] Resident resident_memory();

}  // namespace tidelot::run
