// SPDX-License-Identifier: Apache-2.0
// One day of the alga, step by step: the season of one line and the farm that shares its water are
// built from it.
#pragma once

#include <optional>

#include "growth/exact_day.hpp"
#include "tidelot/growth/model.hpp"

namespace tidelot {

/// What hangs on a metre of line.
struct Crop1m {
  double weight;   ///< W, g FW/m
  double reserve;  ///< Q, g N/g DW
};

/// A day whose light, temperature and crop are known and whose nitrogen may still be chosen: growth
/// depends on the reserve at the start of the day, so only the uptake hangs on the water's
/// nitrogen.
class AlgaDay {
 public:
  AlgaDay(const DayForcing& day, const Crop1m& crop, const Husbandry& husbandry,
          const AlgaConstants& constants);
  /// Nitrogen taken up over the day at `nitrogen` umol/L of DIN, g N/m; below 0 where a full,
  /// shrinking crop gives nitrogen back. Never falls as nitrogen rises, so long as the uptake at
  /// empty reserve does not.
  [[nodiscard]] double uptake(double nitrogen) const;
  /// The day's end, before the cut, at `nitrogen` umol/L; moves the crop on.
  [[nodiscard]] DayTrace end(double nitrogen, Crop1m& crop) const;

 private:
  [[nodiscard]] double uptake_per_day(double nitrogen) const;

  const Husbandry& husbandry_;
  const AlgaConstants& constants_;
  DayTrace trace_{};  // the factors; the rest is filled in at the end
  std::optional<DayAhead> ahead_;
};

}  // namespace tidelot
