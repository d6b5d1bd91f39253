// SPDX-License-Identifier: Apache-2.0
// Bytes as what a run keeps of its finished tiles, the part file and the ledger. As they stand:
// what is accepted is byte for byte what would be written for its tiles. As a change to a whole
// one: it is refused, or it holds what the whole one held; no tile counts as done with other
// contents.
#include <sys/mman.h>
#include <unistd.h>

#include <cstring>
#include <string>
#include <vector>

#include "promise.hpp"
#include "run/resume/part_file.hpp"
#include "run/resume/tile_ledger.hpp"
#include "tidelot/core/error.hpp"

namespace {

using namespace tidelot;
using namespace tidelot::run;
using fuzz::promise;

constexpr const char* kIdentity = "plan 1 inputs 2";
constexpr std::size_t kMembers = 2;
const std::vector<std::size_t> kTileBytes{4, 0, 9, 1, 16};
const Part kPart{1, 2};

/// A file in memory, with a path like any other.
class MemoryFile {
 public:
  MemoryFile() : fd_(memfd_create("tiles", MFD_CLOEXEC)) {}
  [[nodiscard]] std::string path() const { return "/proc/self/fd/" + std::to_string(fd_); }
  void hold(std::string_view text) const {
    promise(ftruncate(fd_, 0) == 0 &&
                pwrite(fd_, text.data(), text.size(), 0) == static_cast<ssize_t>(text.size()),
            "the memory file takes its text");
  }
  [[nodiscard]] std::string text() const {
    std::string out(static_cast<std::size_t>(lseek(fd_, 0, SEEK_END)), '\0');
    promise(pread(fd_, out.data(), out.size(), 0) == static_cast<ssize_t>(out.size()),
            "the memory file gives its text");
    return out;
  }

 private:
  int fd_;
};

const MemoryFile& file() {
  static const MemoryFile kFile;
  return kFile;
}

/// Takes numbers off the front of the input; 0 when it is used up.
class Source {
 public:
  explicit Source(std::string_view bytes) : bytes_(bytes) {}
  std::uint8_t byte() {
    const std::uint8_t first = bytes_.empty() ? 0 : static_cast<std::uint8_t>(bytes_.front());
    bytes_.remove_prefix(bytes_.empty() ? 0 : 1);
    return first;
  }
  std::size_t below(std::size_t limit) { return (byte() * 256U + byte()) % limit; }
  [[nodiscard]] std::string_view rest() const { return bytes_; }

 private:
  std::string_view bytes_;
};

struct Kept {
  std::vector<std::byte> cells;
  GroupCounts counted;
};

Kept kept_of(Source& source, std::size_t tile) {
  Kept out{std::vector<std::byte>(kTileBytes[tile]), {MemberCells(kMembers), {}}};
  for (std::byte& cell : out.cells) {
    cell = std::byte{source.byte()};
  }
  for (std::size_t m = 0; m < kMembers; ++m) {
    out.counted.cells.water[m] = source.byte();
    out.counted.cells.open[m] = source.byte();
    out.counted.cells.suitable[m] = source.byte();
  }
  out.counted.lattice.cells = source.byte();
  return out;
}

bool same(const GroupCounts& a, const GroupCounts& b) {
  return a.cells.water == b.cells.water && a.cells.open == b.cells.open &&
         a.cells.suitable == b.cells.suitable && a.lattice.cells == b.lattice.cells &&
         a.lattice.grown == b.lattice.grown && a.lattice.exact == b.lattice.exact &&
         a.lattice.probes == b.lattice.probes;
}

std::string head() { return std::string("tidelot part 1 of 2 of ") + kIdentity + "\n"; }

/// The records of the file's part, "" and false where it is refused.
bool read(std::string_view text, std::string& records) {
  file().hold(text);
  records = head();
  try {
    read_part(file().path(), kPart, {kIdentity, kTileBytes, kMembers}, "tidelot scout",
              [&](const TileRecord& record) { records += record_of(record); });
    return true;
  } catch (const Error& refusal) {
    promise(refusal.fault() == Fault::input, "a part that is not whole is a fault of the input");
    fuzz::promise_one_line(refusal.what());
    return false;
  }
}

void check_part(std::string_view text) {
  std::string records;
  promise(!read(text, records) || records == text,
          "a part that is accepted is what would be written for its tiles");
}

/// One to four edits: a byte changed, put in or taken out, the end cut off, a stretch said twice.
std::string changed(std::string text, Source& source) {
  for (int left = 1 + source.byte() % 4; left > 0 && !text.empty(); --left) {
    const std::size_t at = source.below(text.size());
    switch (source.byte() % 5) {
      case 0:
        text[at] = static_cast<char>(text[at] ^ source.byte());
        break;
      case 1:
        text.insert(at, 1, static_cast<char>(source.byte()));
        break;
      case 2:
        text.erase(at, 1 + source.byte() % 8);
        break;
      case 3:
        text.resize(at);
        break;
      default:
        text += text.substr(at, source.byte());
    }
  }
  return text;
}

void check_changed_part(Source& source) {
  std::string whole = head();
  for (const std::size_t tile : {0, 2, 4}) {
    const Kept kept = kept_of(source, tile);
    whole += record_of({tile, kept.counted, kept.cells});
  }
  std::string records;
  promise(read(whole, records) && records == whole, "a whole part is accepted as it is");
  check_part(changed(whole, source));
}

/// What a ledger says of tiles, against what was written of them.
void check_kept(const TileLedger& ledger, const std::vector<Kept>& tiles) {
  for (std::size_t tile = 0; tile < tiles.size(); ++tile) {
    const auto counted = ledger.kept(tile, tiles[tile].cells);
    promise(!counted || same(*counted, tiles[tile].counted),
            "no tile counts as done with other contents");
    std::vector<std::byte> other = tiles[tile].cells;
    if (!other.empty()) {
      other[0] ^= std::byte{1};
      promise(!ledger.kept(tile, other), "no tile counts as done with other cells");
    }
  }
}

void check_changed_ledger(Source& source) {
  std::vector<Kept> tiles;
  file().hold("");
  {
    TileLedger ledger(file().path(), kIdentity);
    for (std::size_t tile = 0; tile < kTileBytes.size(); ++tile) {
      tiles.push_back(kept_of(source, tile));
      ledger.add(tile, tiles[tile].cells, tiles[tile].counted);
    }
  }
  const std::string whole = file().text();
  file().hold(changed(whole, source));
  const TileLedger ledger(file().path(), kIdentity);
  check_kept(ledger, tiles);
  file().hold(whole);
  const TileLedger again(file().path(), kIdentity);
  for (std::size_t tile = 0; tile < tiles.size(); ++tile) {
    promise(again.kept(tile, tiles[tile].cells).has_value(), "a whole ledger is believed");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t count) {
  Source source(fuzz::text_of(bytes, count));
  switch (source.byte() % 4) {
    case 0:
      check_changed_part(source);
      break;
    case 1:
      check_changed_ledger(source);
      break;
    case 2:
      check_part(head() + std::string(source.rest()));
      break;
    default:
      check_part(source.rest());
  }
  return 0;
}
