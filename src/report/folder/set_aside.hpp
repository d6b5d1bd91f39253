// SPDX-License-Identifier: Apache-2.0
// An earlier run's files, while a new run's are moved into their places.
#pragma once

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

namespace tidelot {

/// Syncs the folder and those of the names in it: what was moved there is safe from then on.
void sync_folders(const std::filesystem::path& folder, const std::vector<std::string>& names);

/// Renames and new folders that can be taken back.
class Moves {
 public:
  void make_folder(const std::filesystem::path& path);
  void move(const std::filesystem::path& from, const std::filesystem::path& to);
  /// Takes all of it back, the last first; false when a step cannot be taken back: then those
  /// before it stand, and bring_back() goes on from there.
  [[nodiscard]] bool undo() noexcept;

 private:
  std::vector<std::filesystem::path> made_;
  std::vector<std::pair<std::filesystem::path, std::filesystem::path>> done_;
};

/// Moves the earlier run's files from `folder` into the work folder, run.json first: from then on
/// the folder claims no result. The last move says that all are there.
void set_aside(const std::filesystem::path& folder, const std::filesystem::path& work,
               Moves& moves);

/// What lies where after moves that could not be undone, and what the next run does about it.
[[nodiscard]] std::string left_behind(const std::filesystem::path& folder,
                                      const std::filesystem::path& work);

/// Puts back what a run that died, or could not undo its moves, set aside, run.json last, and
/// removes what of the new run's stands in its place. Throws Error(output) when it cannot: another
/// call goes on.
void bring_back(const std::filesystem::path& folder, const std::filesystem::path& work);

}  // namespace tidelot
