// SPDX-License-Identifier: Apache-2.0
#include "prepared_raster.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace tidelot {
namespace {

constexpr int kStripCells = 1 << 22;
constexpr float kNan = std::numeric_limits<float>::quiet_NaN();

void screen_values(const std::optional<Screen>& screen, std::span<float> values) {
  if (!screen) {
    return;
  }
  for (float& value : values) {
    value = screen->believes(value) ? value : kNan;
  }
}

/// Both at once: every value is judged once.
void count_and_screen(const std::optional<Screen>& screen, std::span<float> values,
                      PixelStats& stats) {
  for (float& value : values) {
    if (!std::isnan(value)) {
      const bool believed = !screen || screen->believes(value);
      stats.add(screen ? screen->conversion(value) : value, believed);
      value = believed ? value : kNan;
    }
  }
}

void count_values(const std::optional<Screen>& screen, std::span<const float> values,
                  PixelStats& stats) {
  for (const float value : values) {
    if (!std::isnan(value)) {
      stats.add(screen ? screen->conversion(value) : value, !screen || screen->believes(value));
    }
  }
}

/// The bands of a raster that a layer uses, without the values that are not believed.
class ScreenedRaster final : public RasterSource {
 public:
  ScreenedRaster(std::unique_ptr<RasterSource> source, std::vector<int> bands,
                 std::optional<Screen> screen)
      : source_(std::move(source)),
        bands_(std::move(bands)),
        screen_(std::move(screen)),
        info_(source_->info()) {
    info_.bands = static_cast<int>(bands_.size());
  }
  [[nodiscard]] const RasterInfo& info() const override { return info_; }
  void read(int band, const Window& window, std::span<float> out) override {
    source_->read(bands_[static_cast<std::size_t>(band)], window, out);
    screen_values(screen_, out);
  }
  [[nodiscard]] std::unique_ptr<RasterSource> clone() const override {
    return std::make_unique<ScreenedRaster>(source_->clone(), bands_, screen_);
  }

 private:
  std::unique_ptr<RasterSource> source_;
  std::vector<int> bands_;
  std::optional<Screen> screen_;
  RasterInfo info_;
};

std::size_t cells(const Window& w) {
  return static_cast<std::size_t>(w.cols) * static_cast<std::size_t>(w.rows);
}

PreparedRaster load(RasterSource& source, const Window& window, const std::vector<int>& bands,
                    const std::optional<Screen>& screen) {
  PreparedRaster result;
  auto values = std::make_shared<std::vector<float>>(cells(window) * bands.size());
  for (std::size_t i = 0; i < bands.size(); ++i) {
    const auto part = std::span(*values).subspan(i * cells(window), cells(window));
    source.read(bands[i], window, part);
    count_and_screen(screen, part, result.stats);
  }
  result.source = std::make_unique<MemoryRaster>(
      cut(source.info(), window, static_cast<int>(bands.size())), std::move(values));
  return result;
}

PixelStats read_through(RasterSource& source, const Window& window, const std::vector<int>& bands,
                        const std::optional<Screen>& screen) {
  PixelStats stats;
  const int strip = std::max(1, kStripCells / window.cols);
  for (const int band : bands) {
    for (int row = 0; row < window.rows; row += strip) {
      const Window part{window.col0, window.row0 + row, window.cols,
                        std::min(strip, window.rows - row)};
      std::vector<float> values(cells(part));
      source.read(band, part, values);
      count_values(screen, values, stats);
    }
  }
  return stats;
}

}  // namespace

bool Screen::believes(float value) const {
  // What other programs write where they have no data and forget to say so.
  constexpr float kFills[] = {-9999.0F, -99999.0F, -32768.0F, -32767.0F};
  const double canonical = conversion(value);
  return canonical >= low && canonical <= high &&
         std::find(std::begin(kFills), std::end(kFills), value) == std::end(kFills);
}

void PixelStats::add(double value, bool believed) {
  low = data == 0 ? value : std::min(low, value);
  high = data == 0 ? value : std::max(high, value);
  ++data;
  outside += believed ? 0 : 1;
  negative += believed && value < 0.0 ? 1 : 0;
  positive += believed && value > 0.0 ? 1 : 0;
}

void PixelStats::add(const PixelStats& other) {
  if (other.data == 0) {
    return;
  }
  low = data == 0 ? other.low : std::min(low, other.low);
  high = data == 0 ? other.high : std::max(high, other.high);
  data += other.data;
  outside += other.outside;
  negative += other.negative;
  positive += other.positive;
}

std::size_t kept_pixels(const RasterInfo& info, const Window& window, bool remote) {
  const auto row_of_blocks =
      static_cast<std::size_t>(window.cols) * static_cast<std::size_t>(info.block_rows);
  return remote || row_of_blocks > kMemoryPixels ? kMemoryValues : kMemoryPixels;
}

PreparedRaster prepare(std::unique_ptr<RasterSource> source, const Window& window,
                       const std::vector<int>& bands, const std::optional<Screen>& screen,
                       std::size_t memory_values) {
  if (cells(window) * bands.size() <= memory_values) {
    return load(*source, window, bands, screen);
  }
  PreparedRaster result;
  result.stats = read_through(*source, window, bands, screen);
  result.source = std::make_unique<ScreenedRaster>(std::move(source), bands, screen);
  return result;
}

}  // namespace tidelot
