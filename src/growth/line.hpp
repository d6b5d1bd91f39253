// SPDX-License-Identifier: Apache-2.0
// A metre of line, day by day, whichever crop hangs on it: the season of one line and the farm that
// shares its water are built from it. A line has
//   State start()                              what is put out
//   Day day(forcing, state)                    a day with .uptake(nitrogen), .end(nitrogen, state)
//   double haul(trace, state, number, days)    hauls at the end of day 1..days; N carried off, g/m
//   Stocked stocked()                          what was put out, for the net
#pragma once

#include <span>

#include "growth/alga_day.hpp"
#include "growth/kelp_day.hpp"
#include "tidelot/growth/crop_model.hpp"

namespace tidelot {

/// Bundles of an alga, cut back and hauled.
class AlgaLine {
 public:
  AlgaLine(const Husbandry& husbandry, const AlgaConstants& constants)
      : husbandry_(husbandry), constants_(constants) {}

  [[nodiscard]] Crop1m start() const { return {husbandry_.stocking_g_per_m, constants_.q_start}; }
  [[nodiscard]] AlgaDay day(const DayForcing& day, const Crop1m& crop) const {
    return {day, crop, husbandry_, constants_};
  }
  double haul(DayTrace& trace, Crop1m& crop, std::size_t number, std::size_t days) const;
  [[nodiscard]] Stocked stocked() const { return tidelot::stocked(husbandry_, constants_); }

 private:
  const Husbandry& husbandry_;
  const AlgaConstants& constants_;
};

/// Fronds of kelp, hauled once.
class KelpLine {
 public:
  KelpLine(const Husbandry& husbandry, const KelpConstants& constants)
      : husbandry_(husbandry), constants_(constants) {}

  [[nodiscard]] Frond start() const {
    return {constants_.start_area, constants_.start_n, constants_.start_c};
  }
  [[nodiscard]] KelpDay day(const DayForcing& day, const Frond& frond) const {
    return {day, frond, kelp_inhibition(day.temperature, constants_), husbandry_, constants_};
  }
  double haul(DayTrace& trace, Frond& frond, std::size_t number, std::size_t days) const;
  [[nodiscard]] Stocked stocked() const { return tidelot::stocked(husbandry_, constants_); }

 private:
  const Husbandry& husbandry_;
  const KelpConstants& constants_;
};

inline AlgaLine line_of(const Husbandry& husbandry, const AlgaConstants& constants) {
  return {husbandry, constants};
}
inline KelpLine line_of(const Husbandry& husbandry, const KelpConstants& constants) {
  return {husbandry, constants};
}

/// Counts a day into the season's sums.
void count(SeasonResult& season, const DayTrace& day, double hauled_n_g_per_m);

/// Takes off what was put out.
void subtract(SeasonResult& season, const Stocked& stocked);

/// The season of one line in water that it does not change.
template <class Line>
SeasonResult grow_line(std::span<const DayForcing> days, const Line& line) {
  SeasonResult season;
  if (days.empty()) {
    return season;
  }
  season.days.reserve(days.size());
  auto state = line.start();
  for (const DayForcing& day : days) {
    DayTrace& trace = season.days.emplace_back(line.day(day, state).end(day.nitrogen, state));
    count(season, trace, line.haul(trace, state, season.days.size(), days.size()));
  }
  subtract(season, line.stocked());
  return season;
}

}  // namespace tidelot
