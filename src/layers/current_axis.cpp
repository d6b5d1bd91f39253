// SPDX-License-Identifier: Apache-2.0
#include "current_axis.hpp"

#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

namespace tidelot {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

/// Of a bearing from north: the angle from east is 90 degrees less it.
double cosine_of_twice(double bearing) { return -std::cos(2.0 * bearing * kDegree); }
double sine_of_twice(double bearing) { return std::sin(2.0 * bearing * kDegree); }

/// A raster of bearings as cosines and sines.
class AngleRaster final : public RasterSource {
 public:
  explicit AngleRaster(std::unique_ptr<RasterSource> source)
      : source_(std::move(source)), info_(source_->info()) {
    info_.bands = 2;
  }
  [[nodiscard]] const RasterInfo& info() const override { return info_; }
  void read(int band, const Window& window, std::span<float> out) override {
    source_->read(0, window, out);
    for (float& value : out) {
      const double bearing = value;
      value = std::abs(bearing) <= 360.0 ? static_cast<float>(band == 0 ? cosine_of_twice(bearing)
                                                                        : sine_of_twice(bearing))
                                         : std::numeric_limits<float>::quiet_NaN();
    }
  }
  [[nodiscard]] std::unique_ptr<RasterSource> clone() const override {
    return std::make_unique<AngleRaster>(source_->clone());
  }

 private:
  std::unique_ptr<RasterSource> source_;
  RasterInfo info_;
};

}  // namespace

Field axis_of_direction(const std::variant<double, FileRef>& direction, Opening& opening) {
  if (const auto* bearing = std::get_if<double>(&direction)) {
    Field field;
    field.constant[0] = cosine_of_twice(*bearing);
    field.constant[1] = sine_of_twice(*bearing);
    return field;
  }
  RasterWish wish{"water.current.direction",
                  std::get<FileRef>(direction),
                  std::nullopt,
                  "degrees",
                  1.0,
                  false,
                  std::nullopt,
                  {},
                  0.0,
                  ""};
  Field field = open_raster_field(wish, opening).field;
  field.parts[0].source = std::make_unique<AngleRaster>(std::move(field.parts[0].source));
  field.band = {{0, 0}, {0, 1}};
  return field;
}

std::vector<float> axis_bearings(Field& axis, TileSampler& sampler) {
  std::vector<float> bearings = sampler.node(axis, 0);
  const std::vector<float> sines = sampler.node(axis, 1);
  for (std::size_t i = 0; i < bearings.size(); ++i) {
    const double twice =
        std::atan2(static_cast<double>(sines[i]), static_cast<double>(bearings[i]));
    const double bearing = 90.0 - twice / 2.0 / kDegree;
    const bool turned = std::hypot(sines[i], bearings[i]) < 1e-3F;  // all ways alike
    bearings[i] = turned ? std::numeric_limits<float>::quiet_NaN()
                         : static_cast<float>(bearing < 180.0 ? bearing : bearing - 180.0);
  }
  return bearings;
}

}  // namespace tidelot
