// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace tidelot {

/// The folder of a run's results. Everything is written into a work folder inside it and moved to
/// its final name by commit(), run.json last; without commit() nothing is left, and what stood there
/// before stays as it was.
class OutputFolder {
 public:
  /// Throws Error(output) when the folder exists, is not empty and holds no run.json of tidelot, or
  /// cannot be written.
  explicit OutputFolder(std::filesystem::path folder);
  ~OutputFolder();
  OutputFolder(const OutputFolder&) = delete;
  OutputFolder& operator=(const OutputFolder&) = delete;

  /// Where to write a file before commit: "maps/yield.tif" -> the work folder's path. Its parent
  /// exists.
  [[nodiscard]] std::filesystem::path staged(const std::string& name);
  /// Writes and syncs a staged text file, checks its size.
  void write(const std::string& name, std::string_view text);
  /// Moves every staged file to its final name, run.json last, and syncs the folders.
  void commit();

 private:
  std::filesystem::path folder_;
  std::filesystem::path work_;
  std::vector<std::string> names_;
  bool made_folder_ = false;
  bool done_ = false;
};

}  // namespace tidelot
