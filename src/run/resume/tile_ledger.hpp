// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <map>
#include <mutex>
#include <optional>
#include <span>
#include <string>

#include "run/resume/tile_record.hpp"

namespace tidelot::run {

/// Which tiles of a run are finished, in a file that grows by a line a tile, so that a run that was
/// stopped can go on. A line holds a sum over the tile's cells and counts: what does not match it,
/// because the process or the machine died half way, counts as not done.
class TileLedger {
 public:
  /// Goes on with the file where it is of this identity, makes it anew otherwise. identity: of the
  /// program, the plan, the inputs and the maps kept; one line. Error(output), naming the file.
  TileLedger(std::filesystem::path file, std::string identity);
  ~TileLedger();
  TileLedger(const TileLedger&) = delete;
  TileLedger& operator=(const TileLedger&) = delete;

  /// Does the file hold tiles of an earlier run?
  [[nodiscard]] bool goes_on() const { return !kept_.empty(); }
  /// What the members count in a tile that an earlier run finished with these cells; none where it
  /// did not, or not whole.
  [[nodiscard]] std::optional<GroupCounts> kept(std::size_t tile,
                                                std::span<const std::byte> cells) const;
  /// Notes a finished tile. Threads may call at once. Error(output).
  void add(std::size_t tile, std::span<const std::byte> cells, const GroupCounts& counted);

 private:
  /// The entries of a file of this identity; none of another.
  void read();
  void append(const std::string& text);

  std::filesystem::path file_;
  std::string identity_;
  std::map<std::size_t, TileLine> kept_;
  int fd_ = -1;
  std::mutex mutex_;
};

}  // namespace tidelot::run
