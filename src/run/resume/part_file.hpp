// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <mutex>
#include <string>
#include <string_view>
#include <vector>

#include "run/resume/tile_record.hpp"
#include "tidelot/run.hpp"

namespace tidelot::run {

/// Is the tile one of the part's? Tiles are dealt out one by one, so that parts take alike.
[[nodiscard]] bool holds(const Part& part, std::size_t tile);

/// Where a part of a run is kept.
[[nodiscard]] std::filesystem::path part_path(const std::filesystem::path& folder,
                                              const Part& part);
/// The finished parts that stand in a folder, by number of parts, then by number.
[[nodiscard]] std::vector<Part> parts_in(const std::filesystem::path& folder);

/// Writes a part: a line with its number and the run's identity, then a record a tile, in the order
/// in which they were finished. Under its name it stands whole or not at all.
class PartFile {
 public:
  /// Error(output), naming the file, here and below.
  PartFile(const std::filesystem::path& folder, const Part& part, const std::string& identity);
  ~PartFile();
  PartFile(const PartFile&) = delete;
  PartFile& operator=(const PartFile&) = delete;

  /// record: as record_of. Threads may call at once.
  void add(std::string_view record);
  /// Syncs, and gives the file its name in place of an earlier one.
  void finish();

 private:
  void append(std::string_view text);

  std::filesystem::path final_, written_;
  int fd_ = -1;
  std::mutex mutex_;
};

/// What a part is read against.
struct PartReading {
  std::string identity;
  std::vector<std::size_t> tile_bytes;  ///< of every tile of the run, by number
  std::size_t members = 0;              ///< counts of each kind that a record holds
};

/// Calls take(record) for every tile of the part, in the order of the file. Error(input) when the
/// file is missing, of another identity or not whole: it names the file and `again`, the command
/// that makes it.
void read_part(const std::filesystem::path& file, const Part& part, const PartReading& reading,
               const std::string& again, const std::function<void(const TileRecord&)>& take);

}  // namespace tidelot::run
