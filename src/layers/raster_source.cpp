// SPDX-License-Identifier: Apache-2.0
#include "tidelot/layers/raster_source.hpp"

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace tidelot {

MemoryRaster::MemoryRaster(RasterInfo info, std::shared_ptr<const std::vector<float>> values)
    : info_(std::move(info)), values_(std::move(values)) {
  const std::size_t wanted = static_cast<std::size_t>(info_.cols) *
                             static_cast<std::size_t>(info_.rows) *
                             static_cast<std::size_t>(info_.bands);
  if (values_ == nullptr || values_->size() != wanted) {
    throw std::invalid_argument("a raster in memory needs cols x rows x bands values");
  }
}

void MemoryRaster::read(int band, const Window& window, std::span<float> out) {
  const auto width = static_cast<std::size_t>(info_.cols);
  const auto first_row = static_cast<std::size_t>(band) * static_cast<std::size_t>(info_.rows) +
                         static_cast<std::size_t>(window.row0);
  auto target = out.begin();
  for (int row = 0; row < window.rows; ++row) {
    const std::size_t from =
        (first_row + static_cast<std::size_t>(row)) * width + static_cast<std::size_t>(window.col0);
    target = std::copy_n(values_->begin() + static_cast<std::ptrdiff_t>(from), window.cols, target);
  }
}

std::unique_ptr<RasterSource> MemoryRaster::clone() const {
  return std::make_unique<MemoryRaster>(info_, values_);
}

}  // namespace tidelot
