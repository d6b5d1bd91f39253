// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "tidelot/core/error.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot::geoio {

/// A layer's file on its way in: all messages about it begin in the same way.
struct InputFile {
  std::string key;  ///< "depth"
  FileRef file;
  std::string path;  ///< where it really is, links followed
  bool allow_ballpark = false;

  /// Error(input): "depth: bay.tif: <what>".
  [[nodiscard]] Error error(std::string_view what) const;
};

/// Checks that the file is a regular one on this machine (or, where folders is set, a folder
/// "*.gdb"): no pipe, no device, no address, no GDAL prefix that leads elsewhere,
/// and no link, its own or of a file that is opened with it, out of the folder it may not leave.
[[nodiscard]] InputFile find_input(const FileRef& file, const std::string& key, bool folders);

/// All bytes of a file found so. Error(input) when it cannot be read or is over max_bytes.
[[nodiscard]] std::string read_text_file(const InputFile& input, std::size_t max_bytes);

}  // namespace tidelot::geoio
