// SPDX-License-Identifier: Apache-2.0
#include "step_means.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "step_sums.hpp"

namespace tidelot {
namespace {

constexpr std::size_t kStripValues = std::size_t{1} << 23;  // sums at a time

std::size_t cells(const Window& w) {
  return static_cast<std::size_t>(w.cols) * static_cast<std::size_t>(w.rows);
}

int bands_of(const StepSource& source) {
  return count_of(source.use.nodes) + (source.parts.size() > 1 ? 2 : 0);
}

int strip_rows(const StepSource& source, const Window& window) {
  const auto row =
      static_cast<std::size_t>(window.cols) * static_cast<std::size_t>(bands_of(source));
  return static_cast<int>(std::max<std::size_t>(1, kStripValues / std::max<std::size_t>(1, row)));
}

/// One window, step by step.
class WindowMeans {
 public:
  WindowMeans(StepSource& source, const Window& window, PixelStats* stats)
      : source_(source),
        window_(window),
        stats_(stats),
        raw_(cells(window)),
        values_(source.parts.size(), std::vector<double>(cells(window))),
        nodes_(source.use.nodes, source.use.closed, cells(window)),
        axis_(source.parts.size() > 1 ? cells(window) : 0) {}

  /// Band by band.
  [[nodiscard]] std::vector<float> all() {
    const auto& steps = source_.parts[0]->info().steps;
    for (const int step : source_.use.order) {
      for (std::size_t part = 0; part < source_.parts.size(); ++part) {
        read_step(step, part);
      }
      if (source_.parts.size() > 1) {
        speeds();
      }
      nodes_.add(steps.empty() ? TimeStep{0, step, 1, 0} : steps[static_cast<std::size_t>(step)],
                 values_[0]);
    }
    std::vector<float> means = nodes_.finish();
    if (source_.parts.size() > 1) {
      const std::vector<float> axis = axis_.finish();
      means.insert(means.end(), axis.begin(), axis.end());
    }
    return means;
  }

 private:
  void read_band(RasterSource& part, int step, int level, std::vector<double>& out) {
    part.read(part.info().band(step, level), window_, raw_);
    for (std::size_t i = 0; i < raw_.size(); ++i) {
      out[i] = source_.parts.size() > 1 ? static_cast<double>(raw_[i]) : screened(raw_[i]);
    }
  }

  [[nodiscard]] double screened(float value) {
    if (std::isnan(value) || !source_.screen) {
      return static_cast<double>(value);
    }
    const bool believed = source_.screen->believes(value);
    if (stats_ != nullptr) {
      stats_->add(source_.screen->conversion(value), believed);
    }
    return believed ? static_cast<double>(value) : std::numeric_limits<double>::quiet_NaN();
  }

  void read_step(int step, std::size_t part) {
    const LevelPick& level = source_.use.level;
    std::vector<double>& out = values_[part];
    read_band(*source_.parts[part], step, level.upper, out);
    if (level.weight == 0.0) {
      return;
    }
    std::vector<double> lower(out.size());
    read_band(*source_.parts[part], step, level.lower, lower);
    for (std::size_t i = 0; i < out.size(); ++i) {
      if (std::isnan(out[i])) {
        out[i] = lower[i];
      } else if (!std::isnan(lower[i])) {
        out[i] += level.weight * (lower[i] - out[i]);
      }
    }
  }

  /// The speed takes the place of the eastward part.
  void speeds() {
    for (std::size_t i = 0; i < values_[0].size(); ++i) {
      const double east = values_[0][i];
      const double north = values_[1][i];
      values_[0][i] = screened(static_cast<float>(std::hypot(east, north)));
      if (!std::isnan(values_[0][i])) {
        values_[0][i] = std::hypot(east, north);
        axis_.add(i, east, north);
      }
    }
  }

  StepSource& source_;
  Window window_;
  PixelStats* stats_;
  std::vector<float> raw_;
  std::vector<std::vector<double>> values_;  ///< of each part
  NodeSums nodes_;
  AxisSums axis_;
};

/// Keeps the last window, since all its bands are wanted one after the other.
class StepMeans final : public RasterSource {
 public:
  explicit StepMeans(StepSource source) : source_(std::move(source)) {
    info_ = source_.parts[0]->info();
    info_.bands = bands_of(source_);
    info_.steps.clear();
    info_.levels_m.clear();
  }
  [[nodiscard]] const RasterInfo& info() const override { return info_; }
  void read(int band, const Window& window, std::span<float> out) override {
    const bool kept = window.col0 == window_.col0 && window.row0 == window_.row0 &&
                      window.cols == window_.cols && window.rows == window_.rows;
    if (!kept) {
      values_ = WindowMeans(source_, window, nullptr).all();
      window_ = window;
    }
    std::copy_n(values_.begin() +
                    static_cast<std::ptrdiff_t>(band) * static_cast<std::ptrdiff_t>(cells(window)),
                cells(window), out.begin());
  }
  [[nodiscard]] std::unique_ptr<RasterSource> clone() const override {
    return std::make_unique<StepMeans>(source_.clone());
  }

 private:
  StepSource source_;
  RasterInfo info_;
  Window window_;
  std::vector<float> values_;
};

}  // namespace

StepSource StepSource::clone() const {
  StepSource copy;
  for (const auto& part : parts) {
    copy.parts.push_back(part->clone());
  }
  copy.use = use;
  copy.screen = screen;
  return copy;
}

PreparedRaster prepare_steps(StepSource source, const Window& window, std::size_t memory_values) {
  PreparedRaster result;
  const auto bands = static_cast<std::size_t>(bands_of(source));
  const bool fits = cells(window) * bands <= memory_values;
  auto values = std::make_shared<std::vector<float>>(fits ? cells(window) * bands : 0);
  const int strip = strip_rows(source, window);
  for (int row = 0; row < window.rows; row += strip) {
    const Window part{window.col0, window.row0 + row, window.cols,
                      std::min(strip, window.rows - row)};
    const std::vector<float> means = WindowMeans(source, part, &result.stats).all();
    for (std::size_t band = 0; fits && band < bands; ++band) {
      std::copy_n(
          means.begin() + static_cast<std::ptrdiff_t>(band * cells(part)), cells(part),
          values->begin() + static_cast<std::ptrdiff_t>(band * cells(window) +
                                                        static_cast<std::size_t>(row) *
                                                            static_cast<std::size_t>(window.cols)));
    }
  }
  auto means = std::make_unique<StepMeans>(std::move(source));
  if (!fits) {
    result.source = std::move(means);
    return result;
  }
  result.source = std::make_unique<MemoryRaster>(
      cut(means->info(), window, static_cast<int>(bands)), std::move(values));
  return result;
}

}  // namespace tidelot
