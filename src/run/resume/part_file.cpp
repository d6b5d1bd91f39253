// SPDX-License-Identifier: Apache-2.0
#include "run/resume/part_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <fstream>
#include <tuple>
#include <utility>

#include "report/folder/folder_owner.hpp"
#include "report/folder/os_file.hpp"
#include "report/folder/output_names.hpp"
#include "tidelot/core/error.hpp"

namespace tidelot::run {
namespace {

namespace fs = std::filesystem;

std::string head_of(const Part& part) {
  return fmt::format("tidelot part {} of {} of ", part.number, part.of);
}

/// Reads one record into `text`; false at the end of the file, or where it is cut off there.
bool read_text(std::ifstream& in, const PartReading& reading, std::string& text) {
  if (!std::getline(in, text) || in.eof()) {
    return false;
  }
  const std::optional<TileLine> line = read_tile_line(text);
  if (!line || line->tile >= reading.tile_bytes.size()) {
    return false;
  }
  text += '\n';
  const std::size_t begin = text.size();
  text.resize(begin + reading.tile_bytes[line->tile]);
  const auto wanted = static_cast<std::streamsize>(text.size() - begin);
  return static_cast<bool>(in.read(text.data() + begin, wanted));
}

/// Takes every record; false where the file is not whole.
bool read_records(std::ifstream& in, const Part& part, const PartReading& reading,
                  const std::function<void(const TileRecord&)>& take) {
  std::vector<bool> open(reading.tile_bytes.size());
  std::size_t left = 0;
  for (std::size_t tile = 0; tile < open.size(); ++tile) {
    open[tile] = holds(part, tile);
    left += open[tile] ? 1 : 0;
  }
  for (std::string text; left > 0; --left) {
    if (!read_text(in, reading, text)) {
      return false;
    }
    const std::optional<TileRecord> record = read_record(text);
    if (!record || !open[record->tile] || record->counted.cells.water.size() != reading.members) {
      return false;
    }
    open[record->tile] = false;
    take(*record);
  }
  return in.peek() == std::ifstream::traits_type::eof();
}

}  // namespace

bool holds(const Part& part, std::size_t tile) {
  return tile % static_cast<std::size_t>(part.of) == static_cast<std::size_t>(part.number - 1);
}

fs::path part_path(const fs::path& folder, const Part& part) {
  return folder / fmt::format("{}{}-of-{}", kPartPrefix, part.number, part.of);
}

PartFile::PartFile(const fs::path& folder, const Part& part, const std::string& identity)
    : final_(part_path(folder, part)) {
  // Processes that make the same part, on machines of their own perhaps, write a file each.
  for (int again = 0; fd_ < 0; ++again) {
    written_ = fmt::format("{}.{}-{}", final_.string(), ::getpid(), again);
    fd_ = ::open(written_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (fd_ < 0 && errno != EEXIST) {
      os::fail(written_, "make the file", errno);
    }
  }
  try {
    append(head_of(part) + identity + "\n");
  } catch (...) {
    ::close(fd_);
    os::discard(written_);
    throw;
  }
}

PartFile::~PartFile() {
  if (fd_ >= 0) {
    ::close(fd_);
    os::discard(written_);
  }
}

void PartFile::add(std::string_view record) {
  const std::scoped_lock lock(mutex_);
  append(record);
}

void PartFile::append(std::string_view text) { os::write_all(fd_, written_, text); }

void PartFile::finish() {
  os::sync(written_);
  os::move(written_, final_);
  ::close(std::exchange(fd_, -1));
  os::sync(final_.parent_path());
}

void read_part(const fs::path& file, const Part& part, const PartReading& reading,
               const std::string& again, const std::function<void(const TileRecord&)>& take) {
  const auto refuse = [&](const char* what) {
    throw Error(Fault::input, fmt::format("{}: part {} of {} {}; make it again: {}", file.string(),
                                          part.number, part.of, what, again));
  };
  std::ifstream in(file, std::ios::binary);
  if (!in) {
    refuse("is missing or cannot be read");
  }
  std::string head;
  std::getline(in, head);
  if (in.eof() || !head.starts_with(head_of(part))) {
    refuse("is not whole");
  }
  if (head != head_of(part) + reading.identity) {
    refuse("is of another plan, of other inputs or of another version");
  }
  if (!read_records(in, part, reading, take)) {
    refuse("is not whole");
  }
}

std::vector<Part> parts_in(const fs::path& folder) {
  std::vector<Part> out;
  for (const fs::path& file : part_files(folder)) {
    Part part;
    const std::string name = file.filename().string();
    const char* numbers = name.c_str() + kPartPrefix.size();
    if (std::sscanf(numbers, "%d-of-%d", &part.number, &part.of) == 2 &&
        part_path("", part).string() == name) {
      out.push_back(part);
    }
  }
  std::sort(out.begin(), out.end(), [](const Part& a, const Part& b) {
    return std::tie(a.of, a.number) < std::tie(b.of, b.number);
  });
  return out;
}

}  // namespace tidelot::run
