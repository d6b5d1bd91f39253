// SPDX-License-Identifier: Apache-2.0
#include "run/memory/mapped_cells.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <map>
#include <mutex>
#include <new>
#include <string>
#include <utility>

#include "report/folder/os_file.hpp"

namespace tidelot::run {
namespace {

constexpr double kMebibyte = 1024.0 * 1024.0;

[[noreturn]] void fail(const std::filesystem::path& file, std::size_t bytes, int error) {
  os::fail(file,
           fmt::format("keep {:.0f} MiB of the run there", static_cast<double>(bytes) / kMebibyte),
           error);
}

bool has_size(int fd, std::size_t bytes) {
  struct stat status {};
  return ::fstat(fd, &status) == 0 && static_cast<std::size_t>(status.st_size) == bytes;
}

/// Reserves the blocks; 0 or the error. Called again where a signal came between.
int reserve(int fd, std::size_t bytes) {
  int error = EINTR;
  while (error == EINTR) {
    error = ::posix_fallocate(fd, 0, static_cast<off_t>(bytes));
  }
  return error;
}

std::span<std::byte> mapped(int fd, std::size_t bytes) {
  const int kind = fd < 0 ? MAP_PRIVATE | MAP_ANONYMOUS | MAP_NORESERVE : MAP_SHARED;
  void* at = ::mmap(nullptr, bytes, PROT_READ | PROT_WRITE, kind, fd, 0);
  return at == MAP_FAILED ? std::span<std::byte>() : std::span(static_cast<std::byte*>(at), bytes);
}

/// The mappings of files.
struct Files {
  std::mutex mutex;
  std::map<std::byte*, std::size_t> bytes_at;
};

Files& files() {
  static Files all;
  return all;
}

/// A mapping holds a byte or more.
std::size_t at_least_one(std::size_t bytes) { return std::max<std::size_t>(bytes, 1); }

}  // namespace

MappedCells::MappedCells(std::size_t bytes) : bytes_(mapped(-1, at_least_one(bytes))) {
  if (bytes_.empty()) {
    throw std::bad_alloc();
  }
}

MappedCells::MappedCells(int fd, const std::filesystem::path& path, std::size_t bytes)
    : in_file_(true) {
  const std::size_t size = at_least_one(bytes);
  if (!has_size(fd, size) && ::ftruncate(fd, 0) != 0) {
    fail(path, size, errno);
  }
  if (const int error = reserve(fd, size); error != 0) {
    fail(path, size, error);
  }
  bytes_ = mapped(fd, size);
  if (bytes_.empty()) {
    fail(path, size, errno);
  }
  const std::scoped_lock lock(files().mutex);
  files().bytes_at[bytes_.data()] = bytes_.size();
}

MappedCells::MappedCells(const std::filesystem::path& file, std::size_t bytes) {
  const os::Descriptor made(::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666));
  if (made.get() < 0) {
    fail(file, bytes, errno);
  }
  *this = MappedCells(made.get(), file, bytes);
}

MappedCells MappedCells::nameless(const std::filesystem::path& folder, std::size_t bytes) {
  std::string name = (folder / "cells-XXXXXX").string();
  const os::Descriptor made(::mkostemp(name.data(), O_CLOEXEC));
  if (made.get() < 0) {
    fail(folder, bytes, errno);
  }
  ::unlink(name.c_str());
  return {made.get(), folder, bytes};
}

MappedCells::MappedCells(MappedCells&& other) noexcept
    : bytes_(std::exchange(other.bytes_, {})), in_file_(other.in_file_) {}

MappedCells& MappedCells::operator=(MappedCells&& other) noexcept {
  std::swap(bytes_, other.bytes_);
  std::swap(in_file_, other.in_file_);
  return *this;
}

MappedCells::~MappedCells() {
  if (bytes_.empty()) {
    return;
  }
  if (in_file_) {
    const std::scoped_lock lock(files().mutex);
    files().bytes_at.erase(bytes_.data());
  }
  ::munmap(bytes_.data(), bytes_.size());
}

void MappedCells::release_all() noexcept {
  const std::scoped_lock lock(files().mutex);
  for (const auto& [at, bytes] : files().bytes_at) {
    ::madvise(at, bytes, MADV_DONTNEED);
  }
}

void MappedCells::forget() noexcept {
  if (!in_file_ && !bytes_.empty()) {
    ::madvise(bytes_.data(), bytes_.size(), MADV_DONTNEED);
  }
}

}  // namespace tidelot::run
