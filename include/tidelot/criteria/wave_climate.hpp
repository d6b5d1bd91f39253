// SPDX-License-Identifier: Apache-2.0
// Waves of a wind rose over a grid's fetches.
#pragma once

#include <functional>
#include <memory>
#include <span>
#include <vector>

#include "tidelot/core/grid_vector.hpp"
#include "tidelot/criteria/waves.hpp"
#include "tidelot/criteria/wind.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// Wave height and period over a fetch and a depth at one wind speed, worked out on a lattice and
/// read off between its nodes (bilinear in the logarithms), since a grid asks millions of times.
/// Within 0.2 % of the form itself from 1 m to 1000 km of fetch and 0.1 to 300 m of depth; outside
/// of that the nearest edge is taken.
class SeaTable {
 public:
  using Form = std::function<SeaState(double fetch_m, double depth_m)>;
  explicit SeaTable(const Form& form);
  [[nodiscard]] SeaState operator()(double fetch_m, double depth_m) const;

 private:
  std::vector<double> log_height_;
  std::vector<double> log_period_;
};

/// The form that the plan chooses, of wind at 10 m.
[[nodiscard]] SeaState sea_of(WaveForm form, double wind_10m, double fetch_m, double depth_m);

/// Lowest wind at 10 m that raises the height over the fetch, m/s; infinite where 100 m/s does not.
[[nodiscard]] double wind_for_height(WaveForm form, double height_m, double fetch_m,
                                     double depth_m);

/// The lowest wind that raises a height over a fetch and a depth, as a table (in its heights): the
/// same for every direction.
[[nodiscard]] SeaTable limit_winds(WaveForm form, double height_m);

/// What the waves of all sectors make of every cell. NaN on land.
struct WaveMaps {
  GridVector<float> height_50y_m;  ///< significant, of the worst direction, limited by the depth
  GridVector<float> period_50y_s;  ///< with it
  GridVector<float> height_1y_m;
  GridVector<float> share_above;  ///< share of time above the working limit, 0..1

  explicit WaveMaps(std::size_t cells = 0);
};

/// What the waves are at one place.
struct PlaceWaves {
  double height_50y_m = 0.0;  ///< significant, once in fifty years
  double period_50y_s = 0.0;
  double height_1y_m = 0.0;
  double share_above = 0.0;  ///< share of time above [waves] working_limit_m
  double at_line_m_s = 0.0;  ///< orbital speed at the line in the highest, at high water
  double at_bed_m_s = 0.0;   ///< at the bed, likewise
};

/// Of one cell; NaN where it is land or its depth is not known.
[[nodiscard]] PlaceWaves place_waves(const WaveMaps& maps, std::size_t cell,
                                     double depth_low_water_m, const Plan& plan);

/// A direction of the compass with what its winds raise.
class WaveDirection {
 public:
  /// working_limit_m: significant height above which nobody works the lines; limit: limit_winds of
  /// it.
  WaveDirection(const SectorWind& wind, WaveForm form, double working_limit_m,
                std::shared_ptr<const SeaTable> limit);
  [[nodiscard]] double from_deg() const { return wind_.from_deg; }
  /// Adds the direction to the cells from first up to end. fetch_m, mean_depth_m: of FetchSweep, at
  /// high water; depth_high_m: of the cell itself. Directions have to be added in one order for the
  /// same bytes.
  void add_to(WaveMaps& maps, std::size_t first, std::size_t end, std::span<const float> fetch_m,
              std::span<const float> mean_depth_m, std::span<const float> depth_high_m) const;

 private:
  SectorWind wind_;
  double working_limit_m_;
  SeaTable once_a_year_;
  SeaTable once_in_fifty_;
  std::shared_ptr<const SeaTable> limit_wind_;
};

/// The rose's sectors, each divided until there are at least `fewest` directions; the share of time
/// is divided with them.
[[nodiscard]] std::vector<SectorWind> directions_of(const WindRose& rose, int fewest);

}  // namespace tidelot
