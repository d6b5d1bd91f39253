// SPDX-License-Identifier: Apache-2.0
// In-memory twins of what reads files, for tests.
#pragma once

#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "tidelot/core/error.hpp"
#include "tidelot/layers/opener.hpp"
#include "tidelot/layers/raster_source.hpp"

namespace tidelot::twins {

inline constexpr float kNan = std::numeric_limits<float>::quiet_NaN();

/// A raster in memory of one or more bands; x0, y0 is the upper left corner.
inline std::unique_ptr<MemoryRaster> raster(int cols, int rows, int bands, double x0, double y0,
                                            double dx, double dy, std::vector<float> values,
                                            bool geographic = true) {
  RasterInfo info;
  info.cols = cols;
  info.rows = rows;
  info.bands = bands;
  info.geotransform = {x0, dx, 0, y0, 0, dy};
  info.geographic = geographic;
  info.crs = geographic ? "EPSG:4326" : "local";
  info.crs_name = info.crs;
  info.format = "memory";
  return std::make_unique<MemoryRaster>(
      std::move(info), std::make_shared<const std::vector<float>>(std::move(values)));
}

/// Two functions as a projector.
class FunctionProjector final : public Projector {
 public:
  using Function = std::function<XY(XY)>;
  FunctionProjector(Function forward, Function inverse)
      : forward_(std::move(forward)), inverse_(std::move(inverse)) {}
  void forward(std::span<XY> points) override { all(points, forward_); }
  void inverse(std::span<XY> points) override { all(points, inverse_); }
  [[nodiscard]] std::unique_ptr<Projector> clone() const override {
    return std::make_unique<FunctionProjector>(*this);
  }
  [[nodiscard]] const std::string& operation() const override { return operation_; }
  int calls = 0;

 private:
  void all(std::span<XY> points, const Function& f) {
    for (XY& p : points) {
      p = f(p);
      ++calls;
    }
  }
  Function forward_;
  Function inverse_;
  std::string operation_ = "twin";
};

/// A made-up projection: sinusoidal about 30 W, 41 N on a sphere, so not a plain scaling.
inline constexpr double kRadius = 6371000.0;
inline constexpr double kRadian = 3.14159265358979323846 / 180.0;
inline XY to_local(XY d) {
  return {500000.0 + kRadius * (d.x + 30.0) * kRadian * std::cos(d.y * kRadian),
          kRadius * (d.y - 41.0) * kRadian + 4500000.0};
}
inline XY to_degrees(XY m) {
  const double lat = (m.y - 4500000.0) / kRadius / kRadian + 41.0;
  return {(m.x - 500000.0) / (kRadius * kRadian * std::cos(lat * kRadian)) - 30.0, lat};
}

/// Systems: "EPSG:4326" (degrees) and anything else (the made-up projection's metres).
inline FunctionProjector projector_between(const std::string& from, const std::string& to) {
  const bool from_degrees = from == "EPSG:4326";
  const bool to_degrees_too = to == "EPSG:4326";
  const auto same = [](XY p) { return p; };
  if (from_degrees == to_degrees_too) {
    return {same, same};
  }
  return from_degrees ? FunctionProjector{to_local, to_degrees}
                      : FunctionProjector{to_degrees, to_local};
}

/// Rasters and features by the file's written name.
class MemoryOpener final : public Opener {
 public:
  std::map<std::string, std::unique_ptr<RasterSource>> rasters;
  std::map<std::string, FeatureLayer> features;
  std::map<std::string, Scatter> scatters;
  std::vector<std::array<std::uint32_t, 3>> triangles;  ///< of any points
  std::vector<std::string> opened;

  std::unique_ptr<RasterSource> open_raster(const FileRef& file, const std::string& key) override {
    opened.push_back(file.written);
    const auto found = rasters.find(file.written);
    if (found == rasters.end()) {
      throw Error(Fault::input, key + ": " + file.written + " does not exist");
    }
    return found->second->clone();
  }
  FeatureLayer read_features(const FileRef& file, const std::string& /*where*/,
                             const std::string& key, const std::string& /*crs*/,
                             const LonLatBox& box, const FeatureColumns& columns) override {
    last_box = box;
    last_columns = columns;
    const auto found = features.find(file.written);
    if (found == features.end()) {
      throw Error(Fault::input, key + ": " + file.written + " does not exist");
    }
    return found->second;
  }
  std::optional<Scatter> read_scatter(const FileRef& file, const std::string& /*key*/,
                                      const std::string& /*crs*/,
                                      const LonLatBox& /*box*/) override {
    const auto found = scatters.find(file.written);
    return found == scatters.end() ? std::nullopt : std::optional(found->second);
  }
  std::vector<std::array<std::uint32_t, 3>> triangulate(std::span<const XY> /*places*/) override {
    return triangles;
  }
  std::map<std::string, std::string> texts;
  std::string read_text(const FileRef& file, const std::string& key,
                        std::size_t /*max_bytes*/) override {
    opened.push_back(file.written);
    const auto found = texts.find(file.written);
    if (found == texts.end()) {
      throw Error(Fault::input, key + ": " + file.written + " does not exist");
    }
    return found->second;
  }
  using Opener::projector;
  using Opener::read_features;
  std::unique_ptr<Projector> projector(const std::string& from, const std::string& to,
                                       const std::string& /*key*/,
                                       const LonLatBox& /*area*/) override {
    return std::make_unique<FunctionProjector>(projector_between(from, to));
  }
  std::string metric_crs(const std::string& written) override { return written; }
  std::string crs_name(const std::string& crs) override { return crs; }
  LonLatBox last_box;
  FeatureColumns last_columns;
};

}  // namespace tidelot::twins
