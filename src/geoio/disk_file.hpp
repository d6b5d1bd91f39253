// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <sys/types.h>

#include <cstddef>
#include <filesystem>
#include <mutex>
#include <string>

namespace tidelot::geoio {

/// A file on the disk that did not exist before and that GDAL fills. GDAL knows it by a name of its
/// own and every call to the system is made here, so that no failure is lost: the first one that
/// writing meets is kept and thrown by finish(). Unless keep() is called the file is removed again,
/// so nothing half written or unverified stays.
class DiskFile {
 public:
  /// Error(output) naming the path, also when something of that name is there already.
  explicit DiskFile(std::filesystem::path path);
  ~DiskFile();
  DiskFile(const DiskFile&) = delete;
  DiskFile& operator=(const DiskFile&) = delete;

  /// The path by which GDAL knows it. Nothing is there until GDAL has made the file.
  [[nodiscard]] std::string name() const;
  /// Error(output) with the first failure of the system there was, naming the path.
  void check() const;
  /// Checks, syncs, and asks the size back.
  void finish();
  void keep() { kept_ = true; }

  // What GDAL asks for; several of its handles may be open.
  [[nodiscard]] bool is_made() const { return made_; }
  void make();
  void unmake();
  [[nodiscard]] off_t size() const;
  /// Bytes that were read or written.
  [[nodiscard]] std::size_t read(void* to, std::size_t bytes, off_t at);
  [[nodiscard]] std::size_t write(const void* from, std::size_t bytes, off_t at);
  [[nodiscard]] bool resize(off_t bytes);

 private:
  void note(const char* what, int error);

  std::filesystem::path path_;
  std::string key_;  ///< of its name
  int fd_ = -1;
  bool made_ = false;
  bool kept_ = false;
  off_t end_ = 0;          ///< of what was written
  const char* what_ = "";  ///< failed first
  int error_ = 0;
};

}  // namespace tidelot::geoio
