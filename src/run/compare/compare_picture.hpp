// SPDX-License-Identifier: Apache-2.0
// The maps of finished runs as compare.html shows them.
#pragma once

#include <filesystem>
#include <memory>

#include "tidelot/layers/opener.hpp"
#include "tidelot/report/compare.hpp"

namespace tidelot::run {

/// The maps of one finished run, open.
class FinishedMaps {
 public:
  /// grid_scale: grid length over ground length.
  FinishedMaps(const std::filesystem::path& folder, double grid_scale, Opener& opener);
  [[nodiscard]] double width_m() const { return nitrogen_->info().cols * cell_m_; }
  [[nodiscard]] double height_m() const { return nitrogen_->info().rows * cell_m_; }
  /// Samples of this side, true metres; the nearest cell counts.
  [[nodiscard]] BayPicture picture(double sample_m, const Bay& bay, Opener& opener) const;

 private:
  std::unique_ptr<RasterSource> nitrogen_, reason_;
  double cell_m_ = 0.0;  ///< true
};

/// The side of a sample at which all maps fit the page: three beside each other on paper.
[[nodiscard]] double sample_side(const std::vector<std::pair<double, double>>& sizes_m);

/// What a sample of maps/reason.tif and maps/nitrogen.tif shows; NaN: no data.
[[nodiscard]] float sample_value(float reason, float nitrogen_g_per_m);

}  // namespace tidelot::run
