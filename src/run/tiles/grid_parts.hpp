// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <atomic>
#include <optional>
#include <vector>

#include "run/area.hpp"
#include "run/tiles/tile_job.hpp"
#include "tidelot/core/grid_vector.hpp"

namespace tidelot::run {

/// What is worked out once over the whole grid, and what the plan says of season, score and
/// members: all that tiles share. Not to be copied or moved: jobs refer to it.
class GridParts {
 public:
  /// Error(plan) as landing_distance and Members.
  GridParts(const Plan& plan, Area& area, int threads, const std::atomic<int>* stop_signal);
  GridParts(const GridParts&) = delete;
  GridParts& operator=(const GridParts&) = delete;

  /// As long as this lives.
  [[nodiscard]] TileJob job() const;
  [[nodiscard]] const SeasonSetup& season() const { return season_; }
  [[nodiscard]] const Scorer& scorer() const { return scorer_; }
  [[nodiscard]] const WaveMaps* waves() const { return waves_ ? &*waves_ : nullptr; }
  [[nodiscard]] const GridVector<float>& landing_m() const { return landing_m_; }
  [[nodiscard]] const Members* members() const { return members_ ? &*members_ : nullptr; }

 private:
  const Plan& plan_;
  const Grid& grid_;
  SeasonSetup season_;
  Scorer scorer_;
  GridVector<std::uint32_t> rules_, rules_unknown_;
  std::vector<MonthRule> month_rules_;
  std::optional<WaveMaps> waves_;
  GridVector<float> slope_deg_;
  GridVector<float> landing_m_;
  std::optional<Members> members_;
  std::optional<MemberVerdict> verdict_;
};

/// What each of some workers needs. Members are drawn where the job has them.
[[nodiscard]] std::vector<Worker> workers_of(const Plan& plan, const Area& area, const TileJob& job,
                                             int count);

}  // namespace tidelot::run
