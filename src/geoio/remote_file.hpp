// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "input_file.hpp"

// Rasters on a web server, where the plan allows it. A GeoTIFF in tiles is read by ranges of its
// bytes: its head, and the tiles that the area touches.
namespace tidelot::geoio {

/// A file that the plan names by an address, on its way in. Nothing is asked yet.
[[nodiscard]] InputFile remote_input(const FileRef& file, const std::string& key);

/// While it lives, this thread may open this one file of a server and no other, and no file beside
/// it is looked for. How long an answer may take is settled when the file is opened.
class Reaching {
 public:
  explicit Reaching(const InputFile& input);
  ~Reaching();
  Reaching(const Reaching&) = delete;
  Reaching& operator=(const Reaching&) = delete;

 private:
  bool remote_;
};

}  // namespace tidelot::geoio
