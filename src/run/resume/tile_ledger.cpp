// SPDX-License-Identifier: Apache-2.0
#include "run/resume/tile_ledger.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <fstream>
#include <utility>

#include "report/folder/os_file.hpp"

namespace tidelot::run {
namespace {

constexpr const char* kFirstWord = "tiles";

std::string first_line(const std::string& identity) {
  return fmt::format("{} {}", kFirstWord, identity);
}

}  // namespace

TileLedger::TileLedger(std::filesystem::path file, std::string identity)
    : file_(std::move(file)), identity_(std::move(identity)) {
  read();
  const int more = goes_on() ? O_APPEND : O_TRUNC;
  fd_ = ::open(file_.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC | more, 0666);
  if (fd_ < 0) {
    os::fail(file_, "make the file", errno);
  }
  // A line that was cut off must not run into the next one.
  append(goes_on() ? "\n" : first_line(identity_) + "\n");
}

TileLedger::~TileLedger() {
  if (fd_ >= 0) {
    ::close(fd_);
  }
}

void TileLedger::read() {
  std::ifstream in(file_, std::ios::binary);
  std::string line;
  if (!std::getline(in, line) || line != first_line(identity_)) {
    return;
  }
  while (std::getline(in, line)) {
    if (auto entry = read_tile_line(line)) {
      const std::size_t tile = entry->tile;
      kept_.insert_or_assign(tile, std::move(*entry));
    }
  }
}

std::optional<GroupCounts> TileLedger::kept(std::size_t tile,
                                            std::span<const std::byte> cells) const {
  const auto found = kept_.find(tile);
  if (found == kept_.end() || !found->second.fits(cells)) {
    return std::nullopt;
  }
  return found->second.counted;
}

void TileLedger::add(std::size_t tile, std::span<const std::byte> cells,
                     const GroupCounts& counted) {
  append(tile_line(tile, cells, counted) + "\n");
}

void TileLedger::append(const std::string& text) {
  const std::scoped_lock lock(mutex_);
  os::write_all(fd_, file_, text);
}

}  // namespace tidelot::run
