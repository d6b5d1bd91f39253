// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string>
#include <vector>

#include "tidelot/layers/layer_set.hpp"

namespace tidelot::run {

/// Notices input files that change while a run reads them: what it read of one would be of two.
class InputWatch {
 public:
  /// Looks at the files and at what stands beside them under the same stem.
  explicit InputWatch(std::span<const FileRef> files);
  /// Error(input), naming a file, when one is another one now: gone, of another size or written
  /// since.
  void check() const;

 private:
  /// What a file system tells of a file; all 0 where there is none.
  struct Stamp {
    unsigned long long device = 0, inode = 0, bytes = 0;
    long long written_s = 0, written_ns = 0;
    friend bool operator==(const Stamp&, const Stamp&) = default;
  };
  struct Seen {
    std::string written;  ///< as the plan names it
    std::filesystem::path path;
    bool remote;  ///< path is an address
    Stamp stamp;
  };
  [[nodiscard]] static Stamp stamp_of(const std::filesystem::path& path, bool remote);

  std::vector<Seen> seen_;
};

}  // namespace tidelot::run
