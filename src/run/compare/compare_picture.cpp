// SPDX-License-Identifier: Apache-2.0
#include "run/compare/compare_picture.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "tidelot/criteria/reason_codes.hpp"

namespace tidelot::run {
namespace {

constexpr double kTallest = 300.0;    ///< samples
constexpr double kWidest = 640.0;     ///< samples, of three maps beside each other
constexpr double kWidestOne = 330.0;  ///< samples: as a phone shows it
constexpr double kLonLatSlack = 0.5;  ///< degrees around a site, for the coordinate operation

std::unique_ptr<RasterSource> open_map(const std::filesystem::path& folder, const char* name,
                                       Opener& opener) {
  FileRef file;
  file.path = folder / "maps" / name;
  file.written = std::string("maps/") + name;
  return opener.open_raster(file, "compare");
}

std::vector<float> whole(RasterSource& raster) {
  const RasterInfo& info = raster.info();
  std::vector<float> out(static_cast<std::size_t>(info.cols) * static_cast<std::size_t>(info.rows));
  raster.read(0, {0, 0, info.cols, info.rows}, out);
  return out;
}

std::vector<std::vector<XY>> outlines(const Bay& bay, const RasterInfo& info, double scale,
                                      Opener& opener) {
  std::vector<std::vector<XY>> out;
  for (const BaySite& site : bay.sites) {
    std::vector<XY> corners;
    for (const LonLat corner : site.corners) {
      corners.push_back({corner.lon, corner.lat});
    }
    const LonLatBox box{site.centre.lon - kLonLatSlack, site.centre.lat - kLonLatSlack,
                        site.centre.lon + kLonLatSlack, site.centre.lat + kLonLatSlack};
    opener.projector("EPSG:4326", info.crs, "compare", box)->forward(corners);
    for (XY& corner : corners) {
      corner = {(corner.x - info.geotransform[0]) * scale,
                (info.geotransform[3] - corner.y) * scale};
    }
    out.push_back(std::move(corners));
  }
  return out;
}

}  // namespace

float sample_value(float reason, float nitrogen_g_per_m) {
  if (std::isnan(reason)) {
    return BayPicture::kOutside;
  }
  const auto code = static_cast<std::size_t>(reason);
  if (code == reason::kLand) {
    return BayPicture::kLand;
  }
  if (reason::says_unknown(code) || std::isnan(nitrogen_g_per_m)) {
    return BayPicture::kUnknown;
  }
  return reason::says_closed(code) ? BayPicture::kClosed : std::max(0.0F, nitrogen_g_per_m);
}

double sample_side(const std::vector<std::pair<double, double>>& sizes_m) {
  std::vector<double> widths;
  double tallest = 0.0;
  for (const auto& [width, height] : sizes_m) {
    widths.push_back(width);
    tallest = std::max(tallest, height);
  }
  std::ranges::sort(widths, std::ranges::greater{});
  widths.resize(std::min<std::size_t>(widths.size(), 3));
  double beside = 0.0;
  for (const double width : widths) {
    beside += width;
  }
  return std::max(
      {tallest / kTallest, widths.empty() ? 0.0 : widths[0] / kWidestOne, beside / kWidest});
}

FinishedMaps::FinishedMaps(const std::filesystem::path& folder, double grid_scale, Opener& opener)
    : nitrogen_(open_map(folder, "nitrogen.tif", opener)),
      reason_(open_map(folder, "reason.tif", opener)),
      cell_m_(std::abs(nitrogen_->info().geotransform[1]) / grid_scale) {}

BayPicture FinishedMaps::picture(double sample_m, const Bay& bay, Opener& opener) const {
  const RasterInfo& info = nitrogen_->info();
  const std::vector<float> nitrogen = whole(*nitrogen_), reason = whole(*reason_);
  BayPicture out;
  out.sample_m = sample_m;
  out.cols = std::max(1, static_cast<int>(width_m() / sample_m));
  out.rows = std::max(1, static_cast<int>(height_m() / sample_m));
  for (int row = 0; row < out.rows; ++row) {
    for (int col = 0; col < out.cols; ++col) {
      const auto x = std::min(info.cols - 1, static_cast<int>((col + 0.5) * sample_m / cell_m_));
      const auto y = std::min(info.rows - 1, static_cast<int>((row + 0.5) * sample_m / cell_m_));
      const std::size_t cell = static_cast<std::size_t>(y) * static_cast<std::size_t>(info.cols) +
                               static_cast<std::size_t>(x);
      out.values.push_back(sample_value(reason[cell], nitrogen[cell]));
    }
  }
  out.sites = outlines(bay, info, cell_m_ / std::abs(info.geotransform[1]) / sample_m, opener);
  return out;
}

}  // namespace tidelot::run
