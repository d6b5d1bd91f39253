// SPDX-License-Identifier: Apache-2.0
// Which pixels have no data: decided on raw values, before scale and offset.
#pragma once

#include <gdal_priv.h>

#include <span>
#include <vector>

namespace tidelot::geoio {

/// Room for one block, shared by the bands of a raster: there may be tens of thousands of them.
struct BandRoom {
  std::vector<double> raw;
  std::vector<unsigned char> mask;
  std::vector<unsigned char> part;
};

/// Everything about a band that turns raw values into physical ones.
class BandReader {
 public:
  /// alpha: the dataset's alpha band or null. more_nodata: fill values that GDAL does not know.
  BandReader(GDALRasterBand& band, GDALRasterBand* alpha, std::span<const double> more_nodata);

  /// Reads a block of physical values, NaN where there is no data. False when GDAL cannot.
  [[nodiscard]] bool read(int col0, int row0, int cols, int rows, std::span<float> out,
                          BandRoom& room);

 private:
  [[nodiscard]] static bool read_mask(GDALRasterBand& mask, int col0, int row0, int cols, int rows,
                                      BandRoom& room);
  [[nodiscard]] bool is_nodata(double raw) const;
  [[nodiscard]] float physical(double raw) const;

  GDALRasterBand& band_;
  std::vector<GDALRasterBand*> masks_;  ///< mask band and alpha band: 0 is no data
  bool single_;                         ///< pixels are 32-bit floats
  bool signed_byte_;
  double scale_ = 1.0;
  double offset_ = 0.0;
  std::vector<double> nodata_;  ///< as the band's type holds it
};

}  // namespace tidelot::geoio
