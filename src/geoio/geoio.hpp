// SPDX-License-Identifier: Apache-2.0
// The only room that sees GDAL and PROJ. Nothing of theirs shows here.
#pragma once

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "tidelot/layers/opener.hpp"
#include "tidelot/report/map_writer.hpp"
#include "tidelot/sites/geodesy.hpp"

namespace tidelot::geoio {

/// Must be called once, before any thread starts: settings that keep inputs untouched (no side
/// files), the network off, the error handler in place; and a self-check of the PROJ data (a
/// control point), Error(input) when it is missing or wrong.
void start();

/// GDAL ends the process where it gets no memory at some places, and says why only to a handler.
/// Called with its text before that, on any thread; it may end the process itself.
using LastWords = void (*)(const char* text);
void before_abort(LastWords say);

/// How many bytes of files GDAL keeps unpacked, for all threads together; 64 MiB until it is told.
/// No result hangs on it.
void hold_blocks(std::size_t bytes);
/// What it keeps now.
[[nodiscard]] std::size_t held_blocks();

/// An opener of files. Each is decoded in a child process first, whose death is a refusal, so no
/// other thread may run while it opens; stop, not 0 when the run shall end, is looked at meanwhile.
[[nodiscard]] std::unique_ptr<Opener> make_opener(bool allow_ballpark = false,
                                                  const std::atomic<int>* stop = nullptr);
[[nodiscard]] std::unique_ptr<MapWriter> make_map_writer();
[[nodiscard]] std::unique_ptr<Geodesy> make_geodesy();

/// Point scale (grid length over ground length) and meridian convergence of a projected system.
struct ProjectionFactors {
  double scale_min = 1.0;  ///< smallest over all directions
  double scale_max = 1.0;
  double areal_scale = 1.0;
  double convergence_deg = 0.0;  ///< grid north from true north, clockwise positive
};
[[nodiscard]] ProjectionFactors projection_factors(const std::string& crs, LonLat place);
/// Of several places, in their order: the system is looked up once.
[[nodiscard]] std::vector<ProjectionFactors> projection_factors(const std::string& crs,
                                                                std::span<const LonLat> places);

/// What a web server says of a file, asked anew: its size, and when it was changed last, in seconds
/// since 1970 (0: it does not say). Error(input) where it does not have it.
struct RemoteStamp {
  std::uintmax_t bytes = 0;
  long long modified_s = 0;
  bool operator==(const RemoteStamp&) const = default;
};
[[nodiscard]] RemoteStamp remote_stamp(const FileRef& file);

/// "3.6.2", "9.1.1": for run.json.
[[nodiscard]] std::string gdal_version();
[[nodiscard]] std::string proj_version();

}  // namespace tidelot::geoio
