// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// A block of source pixels.
struct Window {
  int col0 = 0;
  int row0 = 0;
  int cols = 0;
  int rows = 0;
};

/// What a raster says of itself.
struct RasterInfo {
  int cols = 0;
  int rows = 0;
  int bands = 0;
  /// x = g0 + col g1 + row g2, y = g3 + col g4 + row g5, (col, row) at pixel corners.
  std::array<double, 6> geotransform{0, 1, 0, 0, 0, -1};
  std::string crs;                 ///< WKT
  std::string crs_name;            ///< for people: "WGS 84 / UTM zone 26N (EPSG:32626)"
  std::string crs_basis;           ///< "" where the file states it, else what was assumed and why
  bool geographic = false;         ///< x is a longitude in degrees
  std::string format;              ///< "GTiff"
  std::string unit;                ///< of band 1, "" where the file does not say
  std::string positive;            ///< as the file says: "up", "down" or ""
  std::string standard_name;       ///< of CF, "" where the file gives none
  std::vector<int> month_of_band;  ///< 0..11 a band, from a time axis; empty where there is none
  std::string times;               ///< "1980-01-16 to 1990-12-16", from a time axis, for messages
};

/// A raster that hands out windows of values: physical values (scale and offset applied), NaN where
/// there is no data. Nothing else of the file's format is left.
class RasterSource {
 public:
  virtual ~RasterSource() = default;
  [[nodiscard]] virtual const RasterInfo& info() const = 0;
  /// out has window.cols * window.rows values, row by row. band counts from 0. The window lies
  /// inside the raster. Throws Error(input) when pixels cannot be read.
  virtual void read(int band, const Window& window, std::span<float> out) = 0;
  /// An independent handle on the same raster, for another thread.
  [[nodiscard]] virtual std::unique_ptr<RasterSource> clone() const = 0;
};

/// A raster in memory: the twin for tests, and what small layers become when opened.
class MemoryRaster final : public RasterSource {
 public:
  /// values: band by band, row by row.
  MemoryRaster(RasterInfo info, std::shared_ptr<const std::vector<float>> values);
  [[nodiscard]] const RasterInfo& info() const override { return info_; }
  void read(int band, const Window& window, std::span<float> out) override;
  [[nodiscard]] std::unique_ptr<RasterSource> clone() const override;

 private:
  RasterInfo info_;
  std::shared_ptr<const std::vector<float>> values_;
};

}  // namespace tidelot
