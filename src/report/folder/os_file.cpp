// SPDX-License-Identifier: Apache-2.0
#include "report/folder/os_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <system_error>
#include <utility>

#include "tidelot/core/error.hpp"

namespace tidelot::os {

void fail(const std::filesystem::path& path, std::string_view what, int error) {
  throw Error(Fault::output, fmt::format("{}: cannot {}: {}", path.string(), what,
                                         std::generic_category().message(error)));
}

Descriptor::Descriptor(const std::filesystem::path& path, int flags, std::string_view what)
    : fd_(::open(path.c_str(), flags | O_CLOEXEC, 0666)) {
  if (fd_ < 0) {
    fail(path, what, errno);
  }
}

Descriptor::~Descriptor() { unlock(fd_); }

int Descriptor::release() { return std::exchange(fd_, -1); }

void write_all(int descriptor, const std::filesystem::path& path, std::string_view text) {
  while (!text.empty()) {
    const ssize_t count = ::write(descriptor, text.data(), text.size());
    if (count < 0 && errno != EINTR) {
      fail(path, "write", errno);
    }
    text.remove_prefix(count < 0 ? 0 : static_cast<std::size_t>(count));
  }
}

void check_size(const std::filesystem::path& path, std::uintmax_t written, std::intmax_t found) {
  if (found < 0 || static_cast<std::uintmax_t>(found) != written) {
    throw Error(Fault::output, fmt::format("{}: {} bytes were written, {} stand in the file",
                                           path.string(), written, found));
  }
}

void write_new_file(const std::filesystem::path& path, std::string_view text) {
  Descriptor file(path, O_WRONLY | O_CREAT | O_EXCL, "make the file");
  write_all(file.get(), path, text);
  if (::fsync(file.get()) != 0) {
    fail(path, "sync", errno);
  }
  struct stat status {};
  if (::fstat(file.get(), &status) != 0) {
    fail(path, "check the size", errno);
  }
  check_size(path, text.size(), status.st_size);
  if (::close(file.release()) != 0) {
    fail(path, "close", errno);
  }
}

void sync(const std::filesystem::path& path) {
  const Descriptor file(path, O_RDONLY, "open");
  if (::fsync(file.get()) != 0) {
    fail(path, "sync", errno);
  }
}

void move(const std::filesystem::path& from, const std::filesystem::path& to) {
  if (::rename(from.c_str(), to.c_str()) != 0) {
    fail(to, "move the file into place", errno);
  }
}

bool make_folder(const std::filesystem::path& path) {
  std::error_code error;
  const bool made = std::filesystem::create_directory(path, error);
  if (error) {
    fail(path, "make the folder", error.value());
  }
  return made;
}

int lock_new_file(const std::filesystem::path& path) {
  Descriptor file(path, O_RDWR | O_CREAT | O_EXCL, "make the file");
  if (::flock(file.get(), LOCK_EX | LOCK_NB) != 0) {
    fail(path, "lock", errno);
  }
  return file.release();
}

bool is_locked(const std::filesystem::path& path) {
  const int fd = ::open(path.c_str(), O_RDWR | O_CLOEXEC);
  if (fd < 0) {
    return false;
  }
  const bool held = ::flock(fd, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK;
  unlock(fd);
  return held;
}

void unlock(int descriptor) noexcept {
  if (descriptor >= 0) {
    ::close(descriptor);
  }
}

void discard(const std::filesystem::path& path) noexcept {
  std::error_code ignored;
  std::filesystem::remove_all(path, ignored);
}

}  // namespace tidelot::os
