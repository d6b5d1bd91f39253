// SPDX-License-Identifier: Apache-2.0
#include "raster_mask.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <limits>

namespace tidelot::geoio {
namespace {

constexpr float kNan = std::numeric_limits<float>::quiet_NaN();

bool has_signed_bytes(GDALRasterBand& band) {
  const char* type = band.GetMetadataItem("PIXELTYPE", "IMAGE_STRUCTURE");
  return band.GetRasterDataType() == GDT_Byte && type != nullptr &&
         std::strcmp(type, "SIGNEDBYTE") == 0;
}

/// A nodata value as a 32-bit float holds it: 0.1 is never equal to a float pixel, and
/// -3.4028235e38, as text files and other programs write it, lies just beyond the range.
double as_single(double nodata) {
  constexpr double kMax = std::numeric_limits<float>::max();
  if (std::isnan(nodata) || std::isinf(nodata)) {
    return nodata;
  }
  return static_cast<double>(static_cast<float>(std::clamp(nodata, -kMax, kMax)));
}

/// NetCDF attributes come as text with eight digits, which is not always enough for a float: fill
/// values too large to be data match by their leading digits.
bool is_same_fill(double raw, double nodata) {
  return raw == nodata ||
         (std::abs(nodata) > 1e10 && std::abs(raw - nodata) <= 1e-6 * std::abs(nodata));
}

}  // namespace

BandReader::BandReader(GDALRasterBand& band, GDALRasterBand* alpha,
                       std::span<const double> more_nodata)
    : band_(band),
      single_(band.GetRasterDataType() == GDT_Float32),
      signed_byte_(has_signed_bytes(band)),
      nodata_(more_nodata.begin(), more_nodata.end()) {
  int has = 0;
  const double nodata = band.GetNoDataValue(&has);
  if (has != 0) {
    nodata_.push_back(nodata);
  }
  const double scale = band.GetScale(&has);
  scale_ = has != 0 ? scale : 1.0;
  const double offset = band.GetOffset(&has);
  offset_ = has != 0 ? offset : 0.0;
  if (single_) {
    std::transform(nodata_.begin(), nodata_.end(), nodata_.begin(), as_single);
  }
  if (alpha != nullptr) {
    masks_.push_back(alpha);
  }
  const int flags = band.GetMaskFlags();
  if ((flags & GMF_PER_DATASET) != 0 && (flags & GMF_ALPHA) == 0) {
    masks_.push_back(band.GetMaskBand());
  }
}

bool BandReader::is_nodata(double raw) const {
  return !std::isfinite(raw) || std::any_of(nodata_.begin(), nodata_.end(), [raw](double nodata) {
    return is_same_fill(raw, nodata);
  });
}

float BandReader::physical(double raw) const {
  const double value = raw * scale_ + offset_;
  const auto kept = static_cast<float>(value);
  return std::isfinite(kept) ? kept : kNan;
}

bool BandReader::read_mask(GDALRasterBand& mask, int col0, int row0, int cols, int rows,
                           BandRoom& room) {
  room.part.resize(room.mask.size());
  if (mask.RasterIO(GF_Read, col0, row0, cols, rows, room.part.data(), cols, rows, GDT_Byte, 0, 0,
                    nullptr) != CE_None) {
    return false;
  }
  for (std::size_t i = 0; i < room.part.size(); ++i) {
    room.mask[i] = room.part[i] == 0 ? 0 : room.mask[i];
  }
  return true;
}

bool BandReader::read(int col0, int row0, int cols, int rows, std::span<float> out,
                      BandRoom& room) {
  room.raw.resize(out.size());
  room.mask.assign(out.size(), 255);
  if (band_.RasterIO(GF_Read, col0, row0, cols, rows, room.raw.data(), cols, rows, GDT_Float64, 0,
                     0, nullptr) != CE_None) {
    return false;
  }
  for (GDALRasterBand* mask : masks_) {
    if (!read_mask(*mask, col0, row0, cols, rows, room)) {
      return false;
    }
  }
  for (std::size_t i = 0; i < out.size(); ++i) {
    const double stored = room.raw[i];
    const double raw = signed_byte_ && stored > 127.0 ? stored - 256.0 : stored;
    out[i] = room.mask[i] == 0 || is_nodata(raw) ? kNan : physical(raw);
  }
  return true;
}

}  // namespace tidelot::geoio
