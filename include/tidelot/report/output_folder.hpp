// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace tidelot {

/// What becomes of what a stopped run left in a folder.
enum class Unfinished { discard, take };

/// Makes the folder for the parts of a run where there is none. Any number may write their parts at
/// once, beside an earlier result. Error(output) as OutputFolder.
void make_part_folder(const std::filesystem::path& folder);

/// The folder of a run's results. Everything is written into a work folder inside it and moved to
/// its final name by commit(), run.json last; without commit() nothing is left, and what stood
/// there before stays as it was. A run that is to be gone with later leaves its unfinished() part.
class OutputFolder {
 public:
  /// Makes the folder where there is none, and sweeps what a run that died left in it; with
  /// Unfinished::take its unfinished() becomes this one's. Throws Error(output) when it exists, is
  /// not empty and holds no run.json of tidelot, when another run is writing to it, or when it
  /// cannot be written.
  explicit OutputFolder(const std::filesystem::path& folder, Unfinished left = Unfinished::discard);
  ~OutputFolder();
  OutputFolder(const OutputFolder&) = delete;
  OutputFolder& operator=(const OutputFolder&) = delete;

  /// Where to write a file before commit: "maps/yield.tif" -> the work folder's path. Its parent
  /// exists.
  [[nodiscard]] std::filesystem::path staged(const std::string& name);
  /// Writes and syncs a staged text file, checks its size.
  void write(const std::string& name, std::string_view text);
  /// Moves every staged file to its final name, run.json last, and syncs the folders. tidelot's own
  /// files of an earlier run that this one did not write go away; nobody else's are touched. When a
  /// step fails, the steps before it are undone and Error(output) is thrown; where they cannot be,
  /// the next OutputFolder brings the earlier run back.
  void commit();
  /// A folder for what a later run can go on with. It is there.
  [[nodiscard]] std::filesystem::path unfinished() const;
  /// Without commit(), unfinished() stays for a run that takes it.
  void leave_unfinished() noexcept { leaves_ = true; }

 private:
  void clean() noexcept;

  std::filesystem::path folder_;
  std::filesystem::path work_;
  std::filesystem::path made_;  ///< uppermost folder that the constructor made, "" when none
  std::vector<std::string> names_;
  int lock_ = -1;  ///< held while the work folder is in use
  bool done_ = false;
  bool leaves_ = false;
  bool halfway_ = false;  ///< a commit failed and could not be undone
};

}  // namespace tidelot
