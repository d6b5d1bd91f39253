// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "tidelot/layers/curvilinear.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// A block of source pixels.
struct Window {
  int col0 = 0;
  int row0 = 0;
  int cols = 0;
  int rows = 0;
};

/// A step of a time axis: the day on which its middle lies.
struct TimeStep {
  int year = 0;
  int month = 0;            ///< 0..11
  int day = 1;              ///< 1..365: 29 February counts with the 28th
  std::int64_t number = 0;  ///< in days of the axis's calendar, for distances in time
};

/// What a raster says of itself. Bands run through the levels of the first step, then of the next.
struct RasterInfo {
  int cols = 0;
  int rows = 0;
  int bands = 0;
  int block_rows = 1;  ///< that the file unpacks at once; where it has tiles, the rows of one
  /// x = g0 + col g1 + row g2, y = g3 + col g4 + row g5, (col, row) at pixel corners.
  std::array<double, 6> geotransform{0, 1, 0, 0, 0, -1};
  std::string crs;               ///< WKT
  std::string crs_name;          ///< for people: "WGS 84 / UTM zone 26N (EPSG:32626)"
  std::string crs_basis;         ///< "" where the file states it, else what was assumed and why
  bool geographic = false;       ///< x is a longitude in degrees
  std::string format;            ///< "GTiff"
  std::string unit;              ///< of band 1, "" where the file does not say
  std::string positive;          ///< as the file says: "up", "down" or ""
  std::string standard_name;     ///< of CF, "" where the file gives none
  std::string long_name;         ///< NetCDF standard_name and long_name, "" where there is none
  std::vector<TimeStep> steps;   ///< from a time axis; empty where there is none
  bool climatology = false;      ///< the steps are those of a mean year
  std::string years;             ///< of a climatology, where it says: "1961 to 1990"
  std::string times;             ///< "1980-01-16 to 1990-12-16", from a time axis, for messages
  std::vector<double> levels_m;  ///< depths from a vertical axis; empty where there is none
  std::string levels_basis;      ///< what was assumed of that axis, "" where nothing
  bool steps_fastest = false;    ///< bands run through the steps of the first level instead
  /// Where every pixel lies, of a raster whose rows and columns are curves; geotransform is then
  /// the identity and crs a geographic one.
  std::shared_ptr<const CurvilinearGrid> curves;

  [[nodiscard]] int band(int step, int level) const {
    const int levels = levels_m.empty() ? 1 : static_cast<int>(levels_m.size());
    return steps_fastest ? level * (bands / levels) + step : step * levels + level;
  }
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
