// SPDX-License-Identifier: Apache-2.0
// How results leave this room: tidelot itself writes the bytes. GDAL reports most failures of a
// full disk nowhere but in its error handler, and a few not at all, so it is never given a path on
// the disk to write to: it builds small files in memory, and large ones where disk_file.hpp says.
#pragma once

#include <filesystem>
#include <span>
#include <string>
#include <string_view>

#include "gdal_support.hpp"

namespace tidelot::geoio {

/// A folder of GDAL's memory file system, with a name of its own, gone with the object.
class MemoryFolder {
 public:
  MemoryFolder();
  ~MemoryFolder();
  MemoryFolder(const MemoryFolder&) = delete;
  MemoryFolder& operator=(const MemoryFolder&) = delete;

  /// The path by which GDAL knows a file in the folder.
  [[nodiscard]] std::string path(std::string_view name) const;
  /// The bytes of a closed file; empty where there is no such file. They live as long as the
  /// folder.
  [[nodiscard]] std::span<const unsigned char> bytes(std::string_view name) const;

 private:
  std::string folder_;
};

/// A file on the disk that did not exist before. Unless keep() is called it is removed again, so
/// nothing half written or unverified stays.
class NewFile {
 public:
  /// Writes and syncs all bytes and asks the size back.
  /// Throws Error(output) naming the path, also when something of that name is there already.
  NewFile(std::filesystem::path path, std::span<const unsigned char> bytes);
  ~NewFile();
  NewFile(const NewFile&) = delete;
  NewFile& operator=(const NewFile&) = delete;
  void keep() { kept_ = true; }

 private:
  std::filesystem::path path_;
  bool kept_ = false;
};

/// Error(output): "<path>: <what> (<GDAL's reason>); <what to do>".
[[nodiscard]] Error output_error(const std::filesystem::path& path, std::string_view what,
                                 std::string_view reason = "");

/// A driver of GDAL's. Throws Error(output) when this GDAL was built without it.
[[nodiscard]] GDALDriver& driver(const char* name);

}  // namespace tidelot::geoio
