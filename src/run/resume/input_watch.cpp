// SPDX-License-Identifier: Apache-2.0
#include "run/resume/input_watch.hpp"

#include <fmt/format.h>
#include <sys/stat.h>

#include "geoio/geoio.hpp"
#include "run/resume/identity.hpp"
#include "tidelot/core/error.hpp"

namespace tidelot::run {

InputWatch::InputWatch(std::span<const FileRef> files) {
  for (const FileRef& file : files) {
    if (file.remote) {
      seen_.push_back({file.written, file.path, true, stamp_of(file.path, true)});
      continue;
    }
    for (const std::filesystem::path& each : with_companions(file.path)) {
      seen_.push_back({file.written, each, false, stamp_of(each, false)});
    }
  }
}

void InputWatch::check() const {
  for (const Seen& each : seen_) {
    if (stamp_of(each.path, each.remote) != each.stamp) {
      throw Error(Fault::input,
                  fmt::format("{}: {} changed while it was read, so nothing was written; run again "
                              "when it stands still",
                              each.written, each.path.filename().string()));
    }
  }
}

InputWatch::Stamp InputWatch::stamp_of(const std::filesystem::path& path, bool remote) {
  if (remote) {
    FileRef file;
    file.path = path;
    file.written = path.native();
    file.remote = true;
    const geoio::RemoteStamp stamp = geoio::remote_stamp(file);
    return {0, 0, stamp.bytes, stamp.modified_s, 0};
  }
  struct stat status {};
  if (::stat(path.c_str(), &status) != 0) {
    return {};
  }
  return {status.st_dev, status.st_ino, static_cast<unsigned long long>(status.st_size),
          status.st_mtim.tv_sec, status.st_mtim.tv_nsec};
}

}  // namespace tidelot::run
