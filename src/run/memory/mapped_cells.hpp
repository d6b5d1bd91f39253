// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <filesystem>
#include <span>

namespace tidelot::run {

/// Room for arrays over the whole grid in one mapping: memory of the process, or a file. What is
/// written to a file is in the system's hands at once, so it outlives the process, and the system
/// may take the memory back without losing it.
class MappedCells {
 public:
  MappedCells() = default;
  /// Zeros in memory; it is taken as it is written to.
  explicit MappedCells(std::size_t bytes);
  /// A file of so many bytes: the one that stands there when it has the size, zeros otherwise. Its
  /// blocks are reserved, so a full disk shows here and not half way: Error(output), naming it.
  MappedCells(const std::filesystem::path& file, std::size_t bytes);
  /// As such a file, zeros, but without a name: nothing is left of it however the process ends.
  [[nodiscard]] static MappedCells nameless(const std::filesystem::path& folder, std::size_t bytes);
  ~MappedCells();
  MappedCells(MappedCells&& other) noexcept;
  MappedCells& operator=(MappedCells&& other) noexcept;

  [[nodiscard]] std::span<std::byte> bytes() const { return bytes_; }
  /// Gives the pages of all files back to the system; they come again when they are looked at, and
  /// threads may go on reading and writing. What was written is the system's: it lies in its cache
  /// or on the disk.
  static void release_all() noexcept;
  /// Drops memory of the process: zeros again, and what was taken is free. Nothing happens to a
  /// file.
  void forget() noexcept;

 private:
  /// fd stays open and belongs to the caller; path is told.
  MappedCells(int fd, const std::filesystem::path& path, std::size_t bytes);

  std::span<std::byte> bytes_;
  bool in_file_ = false;
};

}  // namespace tidelot::run
