// SPDX-License-Identifier: Apache-2.0
#include "disk_file.hpp"

#include <cpl_vsi.h>
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <map>
#include <memory>
#include <utility>

#include "report/folder/os_file.hpp"

namespace tidelot::geoio {
namespace {

constexpr const char* kPrefix = "/tidelot-new/";

/// The files that stand open, by the names that GDAL knows without the prefix.
struct Files {
  std::mutex mutex;
  std::map<std::string, DiskFile*, std::less<>> by_name;
  unsigned long count = 0;
};

Files& files() {
  static Files all;
  return all;
}

/// Null where there is none of the name.
DiskFile* file_named(const char* name) {
  Files& all = files();
  const std::scoped_lock lock(all.mutex);
  const auto found = all.by_name.find(name);
  return found == all.by_name.end() ? nullptr : found->second;
}

/// What GDAL holds of an open file.
struct Handle {
  DiskFile& file;
  off_t at = 0;
  bool at_end = false;
};

Handle& handle(void* of) { return *static_cast<Handle*>(of); }

int stat_file(void*, const char* name, VSIStatBufL* status, int) {
  const DiskFile* file = file_named(name);
  if (file == nullptr || !file->is_made()) {
    return -1;
  }
  std::memset(status, 0, sizeof(*status));
  status->st_mode = S_IFREG;
  status->st_size = file->size();
  return 0;
}

int unlink_file(void*, const char* name) {
  DiskFile* file = file_named(name);
  if (file == nullptr) {
    return -1;
  }
  file->unmake();
  return 0;
}

void* open_file(void*, const char* name, const char* access) {
  DiskFile* file = file_named(name);
  const bool anew = std::strchr(access, 'w') != nullptr;
  if (file == nullptr || (!anew && !file->is_made())) {
    return nullptr;
  }
  if (anew) {
    file->make();
  }
  return std::make_unique<Handle>(Handle{*file}).release();
}

int seek_file(void* of, vsi_l_offset offset, int whence) {
  Handle& open = handle(of);
  const auto by = static_cast<off_t>(offset);
  open.at = whence == SEEK_SET ? by : (whence == SEEK_CUR ? open.at : open.file.size()) + by;
  open.at_end = false;
  return 0;
}

std::size_t read_file(void* of, void* to, std::size_t size, std::size_t count) {
  Handle& open = handle(of);
  const std::size_t bytes = open.file.read(to, size * count, open.at);
  open.at += static_cast<off_t>(bytes);
  open.at_end = bytes < size * count;
  return size == 0 ? 0 : bytes / size;
}

std::size_t write_file(void* of, const void* from, std::size_t size, std::size_t count) {
  Handle& open = handle(of);
  const std::size_t bytes = open.file.write(from, size * count, open.at);
  open.at += static_cast<off_t>(bytes);
  return size == 0 ? 0 : bytes / size;
}

int close_file(void* of) {
  const std::unique_ptr<Handle> gone(static_cast<Handle*>(of));
  return 0;
}

/// Tells GDAL, once, to come here for names that begin like these.
void install() {
  static const bool installed = [] {
    VSIFilesystemPluginCallbacksStruct* calls = VSIAllocFilesystemPluginCallbacksStruct();
    calls->stat = stat_file;
    calls->unlink = unlink_file;
    calls->open = open_file;
    calls->tell = [](void* of) { return static_cast<vsi_l_offset>(handle(of).at); };
    calls->seek = seek_file;
    calls->read = read_file;
    calls->eof = [](void* of) { return handle(of).at_end ? 1 : 0; };
    calls->write = write_file;
    calls->flush = [](void*) { return 0; };
    calls->truncate = [](void* of, vsi_l_offset size) {
      return handle(of).file.resize(static_cast<off_t>(size)) ? 0 : -1;
    };
    calls->close = close_file;
    VSIInstallPluginHandler(kPrefix, calls);
    VSIFreeFilesystemPluginCallbacksStruct(calls);
    return true;
  }();
  static_cast<void>(installed);
}

}  // namespace

DiskFile::DiskFile(std::filesystem::path path)
    : path_(std::move(path)),
      fd_(::open(path_.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0666)) {
  if (fd_ < 0) {
    note("make the file", errno);
    check();
  }
  install();
  Files& all = files();
  const std::scoped_lock lock(all.mutex);
  key_ = fmt::format("{}.tif", all.count++);
  all.by_name[key_] = this;
}

std::string DiskFile::name() const { return kPrefix + key_; }

DiskFile::~DiskFile() {
  {
    Files& all = files();
    const std::scoped_lock lock(all.mutex);
    all.by_name.erase(key_);
  }
  ::close(fd_);
  if (!kept_) {
    os::discard(path_);
  }
}

void DiskFile::note(const char* what, int error) {
  if (error_ == 0) {
    what_ = what;
    error_ = error;
  }
}

void DiskFile::check() const {
  if (error_ != 0) {
    os::fail(path_, what_, error_);
  }
}

void DiskFile::finish() {
  if (error_ == 0 && ::fsync(fd_) != 0) {
    note("sync", errno);
  }
  check();
  os::check_size(path_, static_cast<std::uintmax_t>(end_), size());
}

void DiskFile::make() { made_ = resize(0); }

void DiskFile::unmake() {
  static_cast<void>(resize(0));
  made_ = false;
}

off_t DiskFile::size() const {
  struct stat status {};
  return ::fstat(fd_, &status) == 0 ? status.st_size : -1;
}

std::size_t DiskFile::read(void* to, std::size_t bytes, off_t at) {
  std::size_t done = 0;
  while (done < bytes) {
    const ssize_t count =
        ::pread(fd_, static_cast<char*>(to) + done, bytes - done, at + static_cast<off_t>(done));
    if (count == 0 || (count < 0 && errno != EINTR)) {
      break;
    }
    done += count < 0 ? 0 : static_cast<std::size_t>(count);
  }
  return done;
}

std::size_t DiskFile::write(const void* from, std::size_t bytes, off_t at) {
  std::size_t done = 0;
  while (done < bytes && error_ == 0) {
    const ssize_t count = ::pwrite(fd_, static_cast<const char*>(from) + done, bytes - done,
                                   at + static_cast<off_t>(done));
    if (count < 0 && errno != EINTR) {
      note("write", errno);
    }
    done += count < 0 ? 0 : static_cast<std::size_t>(count);
  }
  end_ = std::max(end_, at + static_cast<off_t>(done));
  return done;
}

bool DiskFile::resize(off_t bytes) {
  if (::ftruncate(fd_, bytes) != 0) {
    note("write", errno);
    return false;
  }
  end_ = bytes;
  return true;
}

}  // namespace tidelot::geoio
