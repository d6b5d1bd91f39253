// SPDX-License-Identifier: Apache-2.0
#include "output_file.hpp"

#include <cpl_vsi.h>
#include <fmt/format.h>

#include <atomic>
#include <utility>

#include "report/folder/os_file.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::geoio {

MemoryFolder::MemoryFolder() {
  static std::atomic<unsigned long> count{0};
  folder_ = fmt::format("/vsimem/tidelot-{}", count.fetch_add(1));
  VSIMkdir(folder_.c_str(), 0755);
}

MemoryFolder::~MemoryFolder() { VSIRmdirRecursive(folder_.c_str()); }

std::string MemoryFolder::path(std::string_view name) const {
  return fmt::format("{}/{}", folder_, name);
}

std::span<const unsigned char> MemoryFolder::bytes(std::string_view name) const {
  vsi_l_offset size = 0;
  const GByte* data = VSIGetMemFileBuffer(path(name).c_str(), &size, FALSE);
  return data == nullptr ? std::span<const unsigned char>{}
                         : std::span<const unsigned char>{data, static_cast<std::size_t>(size)};
}

NewFile::NewFile(std::filesystem::path path, std::span<const unsigned char> bytes)
    : path_(std::move(path)) {
  const bool not_ours = std::filesystem::exists(std::filesystem::symlink_status(path_));
  try {
    os::write_new_file(path_, {reinterpret_cast<const char*>(bytes.data()), bytes.size()});
  } catch (...) {
    if (!not_ours) {
      os::discard(path_);
    }
    throw;
  }
}

NewFile::~NewFile() {
  if (!kept_) {
    os::discard(path_);
  }
}

Error output_error(const std::filesystem::path& path, std::string_view what,
                   std::string_view reason) {
  const std::string because = reason.empty() ? "" : fmt::format(" ({})", foreign_text(reason));
  return Error(Fault::output, fmt::format("{}: {}{}; check the folder and the space left on its "
                                          "disk, then run again",
                                          foreign_text(path.string()), what, because));
}

GDALDriver& driver(const char* name) {
  GDALDriver* found = GetGDALDriverManager()->GetDriverByName(name);
  if (found == nullptr) {
    throw Error(
        Fault::output,
        fmt::format("GDAL has no driver named {} here; use a build of GDAL that has it", name));
  }
  return *found;
}

}  // namespace tidelot::geoio
