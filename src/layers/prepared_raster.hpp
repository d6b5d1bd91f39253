// SPDX-License-Identifier: Apache-2.0
// A raster made ready for a run: all its pixels over the area were read once, values that cannot be
// true are taken out, and small ones stay in memory.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "area_window.hpp"
#include "tidelot/core/units.hpp"
#include "tidelot/layers/raster_source.hpp"

namespace tidelot {

/// Which values of a layer are believed.
struct Screen {
  Conversion conversion;  ///< to the canonical unit
  double low = 0.0;       ///< canonical
  double high = 0.0;
  std::string unit;  ///< canonical, for messages
  [[nodiscard]] bool believes(float value) const;
};

/// Counts over the pixels of the area's window.
struct PixelStats {
  std::size_t data = 0;      ///< pixels with a value
  std::size_t outside = 0;   ///< of these, not believed
  std::size_t negative = 0;  ///< canonical value below 0, of those believed
  std::size_t positive = 0;
  double low = 0.0;  ///< canonical, of all with a value
  double high = 0.0;
  void add(double value, bool believed);
  void add(const PixelStats& other);
};

struct PreparedRaster {
  std::unique_ptr<RasterSource> source;  ///< holds only the bands asked for, in that order
  PixelStats stats;
};

/// Rasters of at most this many values (all bands of the window) are kept in memory.
inline constexpr std::size_t kMemoryValues = std::size_t{64} << 20;
/// Of one band each value is wanted once or twice: it is kept only up to so many of them, if
/// reading it again is cheap.
inline constexpr std::size_t kMemoryPixels = kMemoryValues / 16;

/// How many values of a raster of one band are kept. remote: it would be fetched again. A file
/// whose blocks go through the window in rows of more than kMemoryPixels takes more memory by
/// blocks, one for every thread, than as a whole.
[[nodiscard]] std::size_t kept_pixels(const RasterInfo& info, const Window& window, bool remote);

/// Reads all pixels of the window in the given bands. screen: none for layers of the user's own.
/// Throws Error(input) when pixels cannot be read.
[[nodiscard]] PreparedRaster prepare(std::unique_ptr<RasterSource> source, const Window& window,
                                     const std::vector<int>& bands,
                                     const std::optional<Screen>& screen,
                                     std::size_t memory_values = kMemoryValues);

}  // namespace tidelot
