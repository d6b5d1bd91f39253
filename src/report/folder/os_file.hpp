// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <filesystem>
#include <string_view>

/// The few calls to the operating system that durable files need. Each throws Error(output), naming
/// the file and the system's own words.
namespace tidelot::os {

/// Throws "FILE: cannot WHAT: " and the system's words for the error.
[[noreturn]] void fail(const std::filesystem::path& path, std::string_view what, int error);

/// A descriptor that closes itself where closing no longer matters.
class Descriptor {
 public:
  /// Opens a file; it is not handed on to other programs.
  Descriptor(const std::filesystem::path& path, int flags, std::string_view what);
  /// Takes one that is open already, or a negative one.
  explicit Descriptor(int descriptor) : fd_(descriptor) {}
  ~Descriptor();
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  [[nodiscard]] int get() const { return fd_; }
  [[nodiscard]] int release();

 private:
  int fd_;
};

/// write(2) until all of it is written.
void write_all(int descriptor, const std::filesystem::path& path, std::string_view text);
/// Throws where another number of bytes stands in a file than was written.
void check_size(const std::filesystem::path& path, std::uintmax_t written, std::intmax_t found);
/// Makes a new file with this text, syncs it and checks its size.
void write_new_file(const std::filesystem::path& path, std::string_view text);
/// fsync of a file or a folder.
void sync(const std::filesystem::path& path);
/// rename(2).
void move(const std::filesystem::path& from, const std::filesystem::path& to);
/// mkdir; true when it was made, false when a folder was there already.
bool make_folder(const std::filesystem::path& path);
/// Makes a file and locks it for this process; the lock goes when the descriptor closes, however
/// the process ends.
[[nodiscard]] int lock_new_file(const std::filesystem::path& path);
/// Does a living process hold the lock of this file? No when there is no such file.
[[nodiscard]] bool is_locked(const std::filesystem::path& path);
/// close(2) of a lock; a negative descriptor is none.
void unlock(int descriptor) noexcept;
/// Removes a file or a tree; best effort, for clean-up that must not throw.
void discard(const std::filesystem::path& path) noexcept;

}  // namespace tidelot::os
