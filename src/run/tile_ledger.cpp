// SPDX-License-Identifier: Apache-2.0
#include "run/tile_ledger.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <unistd.h>
#define XXH_INLINE_ALL
#include <xxhash.h>

#include <cerrno>
#include <fstream>
#include <sstream>
#include <system_error>
#include <utility>
#include <vector>

#include "tidelot/core/error.hpp"

namespace tidelot::run {
namespace {

constexpr const char* kFirstWord = "tiles";

constexpr std::size_t kOfLattice = 4;

/// Water, open and suitable cells of each member, one after the other; then the lattice's counts.
std::vector<std::uint64_t> numbers_of(const GroupCounts& counted) {
  std::vector<std::uint64_t> out;
  const MemberCells& cells = counted.cells;
  for (const std::vector<std::size_t>* each : {&cells.water, &cells.open, &cells.suitable}) {
    out.insert(out.end(), each->begin(), each->end());
  }
  const LatticeCount& lattice = counted.lattice;
  out.insert(out.end(), {lattice.cells, lattice.grown, lattice.exact, lattice.probes});
  return out;
}

/// None where they are not as many.
std::optional<GroupCounts> counts_of(const std::vector<std::uint64_t>& numbers) {
  if (numbers.size() < kOfLattice || (numbers.size() - kOfLattice) % 3 != 0) {
    return std::nullopt;
  }
  const std::size_t members = (numbers.size() - kOfLattice) / 3;
  GroupCounts out{MemberCells(members), {}};
  for (std::size_t m = 0; m < members; ++m) {
    out.cells.water[m] = numbers[m];
    out.cells.open[m] = numbers[members + m];
    out.cells.suitable[m] = numbers[2 * members + m];
  }
  const std::uint64_t* rest = &numbers[3 * members];
  out.lattice = {rest[0], rest[1], rest[2], rest[3]};
  return out;
}

/// Over the cells, then the counts, under the tile's number.
std::uint64_t sum_of(std::size_t tile, std::span<const std::byte> cells,
                     const GroupCounts& counted) {
  const std::vector<std::uint64_t> numbers = numbers_of(counted);
  const std::uint64_t of_cells = XXH3_64bits_withSeed(cells.data(), cells.size(), tile);
  return XXH3_64bits_withSeed(numbers.data(), numbers.size() * sizeof(std::uint64_t), of_cells);
}

std::string first_line(const std::string& identity) {
  return fmt::format("{} {}", kFirstWord, identity);
}

[[noreturn]] void fail(const std::filesystem::path& file, const char* what, int error) {
  throw Error(Fault::output, fmt::format("{}: cannot {}: {}", file.string(), what,
                                         std::generic_category().message(error)));
}

}  // namespace

TileLedger::TileLedger(std::filesystem::path file, std::string identity)
    : file_(std::move(file)), identity_(std::move(identity)) {
  read();
  const int more = goes_on() ? O_APPEND : O_TRUNC;
  fd_ = ::open(file_.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC | more, 0666);
  if (fd_ < 0) {
    fail(file_, "make the file", errno);
  }
  // A line that was cut off must not run into the next one.
  append(goes_on() ? "\n" : first_line(identity_) + "\n");
}

TileLedger::~TileLedger() {
  if (fd_ >= 0) {
    ::close(fd_);
  }
}

std::optional<std::pair<std::size_t, TileLedger::Entry>> TileLedger::read_line(
    const std::string& line) {
  std::istringstream words(line);
  std::size_t tile = 0;
  Entry entry;
  if (!(words >> tile >> std::hex >> entry.sum >> std::dec)) {
    return std::nullopt;
  }
  std::vector<std::uint64_t> numbers;
  for (std::uint64_t number = 0; words >> number;) {
    numbers.push_back(number);
  }
  std::optional<GroupCounts> counted = counts_of(numbers);
  if (!counted || !words.eof()) {
    return std::nullopt;
  }
  entry.counted = std::move(*counted);
  return std::pair(tile, std::move(entry));
}

void TileLedger::read() {
  std::ifstream in(file_, std::ios::binary);
  std::string line;
  if (!std::getline(in, line) || line != first_line(identity_)) {
    return;
  }
  while (std::getline(in, line)) {
    if (auto entry = read_line(line)) {
      kept_.insert_or_assign(entry->first, std::move(entry->second));
    }
  }
}

std::optional<GroupCounts> TileLedger::kept(std::size_t tile,
                                            std::span<const std::byte> cells) const {
  const auto found = kept_.find(tile);
  if (found == kept_.end() || sum_of(tile, cells, found->second.counted) != found->second.sum) {
    return std::nullopt;
  }
  return found->second.counted;
}

void TileLedger::add(std::size_t tile, std::span<const std::byte> cells,
                     const GroupCounts& counted) {
  const std::uint64_t sum = sum_of(tile, cells, counted);
  append(fmt::format("{} {:016x} {}\n", tile, sum, fmt::join(numbers_of(counted), " ")));
}

void TileLedger::append(const std::string& text) {
  const std::scoped_lock lock(mutex_);
  for (std::size_t done = 0; done < text.size();) {
    const ssize_t count = ::write(fd_, text.data() + done, text.size() - done);
    if (count < 0 && errno != EINTR) {
      fail(file_, "write", errno);
    }
    done += count < 0 ? 0 : static_cast<std::size_t>(count);
  }
}

}  // namespace tidelot::run
