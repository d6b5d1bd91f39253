// SPDX-License-Identifier: Apache-2.0
#include "scatter_file.hpp"

#include <fmt/format.h>
#include <gdal_alg.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "gdal_support.hpp"
#include "input_file.hpp"
#include "mesh_file.hpp"
#include "raster_dataset.hpp"
#include "text_points.hpp"
#include "tidelot/core/text.hpp"
#include "vector_file.hpp"
#include "vector_layer.hpp"

namespace tidelot::geoio {
namespace {

constexpr double kAround = 1.0;  // degrees around the box that points are read in
constexpr std::size_t kMaxPoints = 5'000'000;

LonLatBox around(const LonLatBox& box) {
  return {std::max(-180.0, box.west - kAround), std::max(-90.0, box.south - kAround),
          std::min(180.0, box.east + kAround), std::min(90.0, box.north + kAround)};
}

void check_count(const InputFile& input, std::size_t count) {
  if (count > kMaxPoints) {
    throw input.error(
        fmt::format("holds {} points near the area, more than the {} that are read; "
                    "thin it or make a raster of it",
                    count, kMaxPoints));
  }
}

Scatter of_features(const InputFile& input, ValuedFeatures read) {
  Scatter scatter;
  std::size_t points = 0;
  std::size_t areas = 0;
  std::size_t lines = 0;
  std::size_t blank = 0;
  for (Feature& feature : read.layer.features) {
    const bool is_area = !feature.shape.polygons.empty();
    lines += feature.shape.lines.empty() ? 0 : 1;
    if (std::isnan(feature.value)) {
      ++blank;
    } else if (is_area) {
      ++areas;
      scatter.areas.push_back(std::move(feature.shape));
      scatter.values.push_back(feature.value);
    } else {
      points += feature.shape.points.size();
      scatter.places.insert(scatter.places.end(), feature.shape.points.begin(),
                            feature.shape.points.end());
      scatter.values.insert(scatter.values.end(), feature.shape.points.size(), feature.value);
    }
  }
  if (lines > 0 || (areas > 0 && points > 0)) {
    throw input.error(lines > 0 ? "holds lines; depths are read from points or from areas"
                                : "holds points and areas; give each its own layer");
  }
  check_count(input, points);
  scatter.kind = areas > 0 ? Scatter::Kind::areas : Scatter::Kind::points;
  scatter.what = fmt::format("{} {}, {} near the area", read.layer.format,
                             areas > 0 ? "depth areas" : "points", areas + points);
  if (blank > 0) {
    scatter.warnings.push_back(fmt::format("{} features without a value are left out", blank));
  }
  return scatter;
}

Scatter read_shapes(const InputFile& input, const std::string& crs, const LonLatBox& box) {
  ValuedFeatures read = read_valued_features(input, crs, around(box));
  const FeatureLayer& layer = read.layer;
  const ValueColumn column = read.column;
  std::vector<std::string> warnings = layer.warnings;
  const std::string lead = fmt::format("{}: {}: ", input.key, foreign_text(input.file.written));
  for (std::string& warning : warnings) {
    warning = warning.starts_with(lead) ? warning.substr(lead.size()) : warning;
  }
  const auto [crs_name, basis, operation] =
      std::tuple(layer.crs_name, layer.crs_basis, layer.operation);
  Scatter scatter = of_features(input, std::move(read));
  scatter.of = column.of;
  scatter.unit = column.unit;
  scatter.positive = column.positive;
  scatter.crs_name = crs_name;
  scatter.crs_basis = basis;
  scatter.operation = operation;
  scatter.warnings.insert(scatter.warnings.begin(), warnings.begin(), warnings.end());
  return scatter;
}

/// Do all places lie on one line? The library would tell of it on the standard error stream.
bool lie_in_a_row(const std::vector<double>& x, const std::vector<double>& y) {
  const auto away = [&](std::size_t i) { return std::hypot(x[i], y[i]); };  // from the first
  std::size_t far = 0;
  for (std::size_t i = 1; i < x.size(); ++i) {
    far = away(i) > away(far) ? i : far;
  }
  double widest = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    widest = std::max(widest, std::abs(x[far] * y[i] - y[far] * x[i]));
  }
  constexpr double kThinnest = 1e-9;  // width over length; judgement: rounding alone is less
  return !(widest > kThinnest * away(far) * away(far));
}

struct FreeTriangulation {
  void operator()(GDALTriangulation* t) const { GDALTriangulationFree(t); }
};

}  // namespace

std::optional<Scatter> read_scatter_file(const FileRef& file, const std::string& key,
                                         const std::string& crs, const LonLatBox& box,
                                         bool allow_ballpark) {
  InputFile input = find_input(file, key, true);
  input.allow_ballpark = allow_ballpark;
  if (auto mesh = read_mesh(input, crs, box)) {
    return mesh;
  }
  if (opens_as_shapes(input)) {
    return read_shapes(input, crs, box);
  }
  if (is_text_of_points(input) && !opens_as_raster(input)) {
    Scatter scatter = read_text_points(input, crs, around(box));
    check_count(input, scatter.places.size());
    return scatter;
  }
  return std::nullopt;
}

std::vector<std::array<std::uint32_t, 3>> delaunay(std::span<const XY> places) {
  const Failures failures;
  std::vector<double> x(places.size());
  std::vector<double> y(places.size());
  for (std::size_t i = 0; i < places.size(); ++i) {  // from the first: digits are kept for shape
    x[i] = places[i].x - places[0].x;
    y[i] = places[i].y - places[0].y;
  }
  std::vector<std::array<std::uint32_t, 3>> triangles;
  if (places.size() < 3 || lie_in_a_row(x, y)) {
    return triangles;
  }
  const std::unique_ptr<GDALTriangulation, FreeTriangulation> made(
      GDALTriangulationCreateDelaunay(static_cast<int>(places.size()), x.data(), y.data()));
  for (int i = 0; made != nullptr && i < made->nFacets; ++i) {
    const int* corner = made->pasFacets[i].anVertexIdx;
    triangles.push_back({static_cast<std::uint32_t>(corner[0]),
                         static_cast<std::uint32_t>(corner[1]),
                         static_cast<std::uint32_t>(corner[2])});
  }
  return triangles;
}

}  // namespace tidelot::geoio
