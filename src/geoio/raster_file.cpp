// SPDX-License-Identifier: Apache-2.0
#include "raster_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>
#include <vector>

#include "band_axes.hpp"
#include "gdal_support.hpp"
#include "input_file.hpp"
#include "netcdf_axes.hpp"
#include "raster_dataset.hpp"
#include "raster_mask.hpp"
#include "remote_file.hpp"
#include "stated_reference.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

// A file of a few kilobytes can claim to hold terabytes.
constexpr double kMaxCells = 2e8;
constexpr double kMaxRemoteCells = 1e12;  // of which only the area's tiles are fetched
constexpr double kMaxBlock = 1e8;
/// Of a time axis and its levels: 3.7 years of hours. The library hands out no more.
constexpr int kMaxBands = 32768;
constexpr int kStripCells = 1 << 20;  // read at a time, so that the work space stays small

void check_size(const InputFile& input, GDALDataset& dataset) {
  const double cells = double{1} * dataset.GetRasterXSize() * dataset.GetRasterYSize();
  const double most = input.file.remote ? kMaxRemoteCells : kMaxCells;
  if (!(cells <= most) || dataset.GetRasterCount() > kMaxBands) {
    throw input.error(
        fmt::format("has {} x {} pixels and {} band(s), more than the {:.0e} pixels or {} "
                    "bands that are read; cut out the area first",
                    dataset.GetRasterXSize(), dataset.GetRasterYSize(), dataset.GetRasterCount(),
                    most, kMaxBands));
  }
}

/// The overview that GDAL shows of a variable-resolution BAG is coarser than its soundings.
void refuse_supergrids(const InputFile& input, GDALDataset& dataset) {
  if (metadata(dataset, "HAS_SUPERGRIDS") == "TRUE") {
    throw input.error(fmt::format(
        "is a BAG of variable resolution; make one grid of it with the shallowest values first: "
        "gdal_translate -oo MODE=RESAMPLED_GRID {} new.tif",
        foreign_text(input.file.written)));
  }
}

void check_band(const InputFile& input, GDALRasterBand& band) {
  int width = 0;
  int height = 0;
  band.GetBlockSize(&width, &height);
  const GDALDataType type = band.GetRasterDataType();
  if (!(double{1} * width * height <= kMaxBlock)) {
    throw input.error("its blocks are too large to read; rewrite it in tiles");
  }
  if (type == GDT_Unknown || GDALDataTypeIsComplex(type) != 0) {
    throw input.error("its pixels are not plain numbers");
  }
}

std::array<double, 6> geotransform_of(const InputFile& input, GDALDataset& dataset) {
  std::array<double, 6> g{};
  if (dataset.GetGeoTransform(g.data()) != CE_None) {
    throw input.error(
        dataset.GetGCPCount() > 0
            ? "has ground control points only; warp it to a regular grid first"
            : "does not say where its pixels lie (no regular axes and no geotransform); "
              "put it on a regular grid first");
  }
  const bool finite = std::all_of(g.begin(), g.end(), [](double v) { return std::isfinite(v); });
  if (!finite || g[1] * g[5] - g[2] * g[4] == 0.0) {
    throw input.error("its geotransform is broken; set it anew with gdal_translate -a_ullr");
  }
  return g;
}

/// NetCDF files with axes in degrees often leave out the grid mapping: CF says no datum then, and
/// WGS 84 is assumed and said. Any other file without a system is refused.
OGRSpatialReference reference_of(const InputFile& input, GDALDataset& dataset, RasterInfo& info) {
  const OGRSpatialReference* own = dataset.GetSpatialRef();
  if (const auto stated = stated_reference(input, own)) {
    info.crs_basis = stated->basis;
    return stated->reference;
  }
  // Centres, not edges: a global lattice with rows at the poles reaches half a row beyond them.
  const auto& g = info.geotransform;
  const double first_row = g[3] + 0.5 * g[5];
  const double last_row = g[3] + (info.rows - 0.5) * g[5];
  if (own == nullptr && info.format == "netCDF" && has_degree_axes(dataset) &&
      std::max(std::abs(first_row), std::abs(last_row)) < 90.5) {
    info.crs_basis = "WGS 84 assumed: axes in degrees and no grid mapping in the file";
    return make_reference("EPSG:4326", input.key);
  }
  throw input.error(
      fmt::format("has no reference system; if you know it, write it into a copy: "
                  "gdal_translate -a_srs EPSG:n {} new.tif{}",
                  foreign_text(input.file.written), crs_key_hint(input.key)));
}

/// Bands that hold values, and the alpha band where there is one.
struct Bands {
  std::vector<GDALRasterBand*> values;
  GDALRasterBand* alpha = nullptr;
};

Bands bands_of(GDALDataset& dataset) {
  Bands bands;
  for (int i = 1; i <= dataset.GetRasterCount(); ++i) {
    GDALRasterBand* const band = dataset.GetRasterBand(i);
    if (band->GetColorInterpretation() == GCI_AlphaBand) {
      bands.alpha = band;
    } else {
      bands.values.push_back(band);
    }
  }
  return bands;
}

/// The NetCDF variables that hold the position of every pixel, longitudes first; empty where the
/// raster has regular axes, or none.
std::array<std::string, 2> curves_of(GDALDataset& dataset, const std::string& format) {
  std::array<double, 6> g{};
  if (format != "netCDF" || dataset.GetGeoTransform(g.data()) == CE_None) {
    return {};
  }
  const auto name = [&](const char* item) {
    const char* text = dataset.GetMetadataItem(item, "GEOLOCATION");
    const std::string place = text != nullptr ? text : "";
    return place.substr(place.rfind(':') + 1);
  };
  return {name("X_DATASET"), name("Y_DATASET")};
}

/// Positions in degrees have no datum of their own: WGS 84 is assumed and said.
void set_curves(const InputFile& input, const std::array<std::string, 2>& names, RasterInfo& info) {
  read_curves(input, names[0], names[1], info);
  const OGRSpatialReference reference = make_reference("EPSG:4326", input.key);
  info.geotransform = {0, 1, 0, 0, 0, 1};
  info.crs = reference_text(reference);
  info.crs_name = "curvilinear, " + reference_name(reference);
  info.crs_basis = "WGS 84 assumed: a curvilinear grid, read between its pixels' own positions";
}

RasterInfo info_of(const InputFile& input, GDALDataset& dataset, const Bands& bands) {
  RasterInfo info;
  info.cols = dataset.GetRasterXSize();
  info.rows = dataset.GetRasterYSize();
  info.bands = static_cast<int>(bands.values.size());
  int block_cols = 0;
  bands.values[0]->GetBlockSize(&block_cols, &info.block_rows);
  info.format = dataset.GetDriverName();
  if (const auto curves = curves_of(dataset, info.format); !curves[0].empty()) {
    set_curves(input, curves, info);
  } else {
    info.geotransform = geotransform_of(input, dataset);
    const OGRSpatialReference reference = reference_of(input, dataset, info);
    info.crs = reference_text(reference);
    info.crs_name = reference_name(reference);
    info.geographic = reference.IsGeographic() != 0;
  }
  info.unit = foreign_text(bands.values[0]->GetUnitType());
  if (info.format == "BAG" && info.unit.empty()) {
    info.unit = "m";  // by the format's definition
  }
  info.standard_name = foreign_text(metadata(dataset, variable_of(dataset) + "#standard_name"));
  info.long_name = foreign_text(info.standard_name + " " +
                                metadata(dataset, variable_of(dataset) + "#long_name"));
  info.positive =
      info.format == "BAG"  // an elevation, by the format's definition
          ? "up"
          : positive_of(foreign_text(metadata(dataset, variable_of(dataset) + "#positive")),
                        info.standard_name);
  if (info.format == "netCDF") {
    read_band_axes(input, variable_of(dataset), info);
  }
  return info;
}

class RasterFile final : public RasterSource {
 public:
  explicit RasterFile(InputFile input)
      : input_(std::move(input)), dataset_(open_raster_dataset(input_)) {
    check_size(input_, *dataset_);
    refuse_supergrids(input_, *dataset_);
    const Bands bands = bands_of(*dataset_);
    if (bands.values.empty()) {
      throw input_.error("holds no band of values");
    }
    info_ = info_of(input_, *dataset_, bands);
    const auto fills = fill_values(*dataset_, variable_of(*dataset_));
    for (GDALRasterBand* band : bands.values) {
      check_band(input_, *band);
      readers_.emplace_back(*band, bands.alpha, fills);
    }
  }

  [[nodiscard]] const RasterInfo& info() const override { return info_; }

  void read(int band, const Window& window, std::span<float> out) override {
    const Failures failures;
    const int strip = std::max(1, kStripCells / std::max(1, window.cols));
    for (int row = 0; row < window.rows; row += strip) {
      const int rows = std::min(strip, window.rows - row);
      const auto width = static_cast<std::size_t>(window.cols);
      const auto part = out.subspan(static_cast<std::size_t>(row) * width,
                                    static_cast<std::size_t>(rows) * width);
      const bool good = readers_[static_cast<std::size_t>(band)].read(
          window.col0, window.row0 + row, window.cols, rows, part, room_);
      if (!good || failures.any()) {
        throw input_.error(
            fmt::format("its pixels cannot be read ({}); the file is damaged or cut short, get it "
                        "anew",
                        failures.text()));
      }
    }
  }

  [[nodiscard]] std::unique_ptr<RasterSource> clone() const override {
    return std::make_unique<RasterFile>(input_);
  }

 private:
  InputFile input_;
  DatasetHandle dataset_;
  RasterInfo info_;
  std::vector<BandReader> readers_;
  BandRoom room_;
};

}  // namespace

std::unique_ptr<RasterSource> open_raster_file(const FileRef& file, const std::string& key) {
  return std::make_unique<RasterFile>(file.remote ? remote_input(file, key)
                                                  : find_input(file, key, false));
}

}  // namespace tidelot::geoio
