// SPDX-License-Identifier: Apache-2.0
#include "tidelot/growth/farm.hpp"

#include <algorithm>
#include <limits>
#include <utility>
#include <variant>

#include "growth/line.hpp"
#include "growth/numbers.hpp"
#include "tidelot/growth/farm_box.hpp"

namespace tidelot {
namespace {

constexpr double kSecondsPerDay = 86'400.0;

/// Water past the canopy in a day, as g of nitrogen for each umol/L (= mmol/m3) it carries.
double flow_of_day(const DayForcing& day, const FarmShape& farm) {
  return day.current * farm.depth_m * farm.width_m * kSecondsPerDay * kNitrogenPerMillimole;
}

/// A day of a farm's season: 1 to days.
struct Count {
  std::size_t number, days;
};

/// A farm on its way through a season.
template <class Line>
class FarmSeason {
 public:
  using State = decltype(std::declval<Line>().start());

  FarmSeason(const Line& line, const FarmShape& farm)
      : line_(line),
        farm_(farm),
        share_(1.0 / farm.segments),
        crops_(static_cast<std::size_t>(farm.segments), line.start()) {}

  /// Grows one day; how far the water's nitrogen is drawn down behind the farm.
  double day(const DayForcing& day, bool forward, Count at) {
    const double flow = flow_of_day(day, farm_);
    double nitrogen = day.nitrogen;
    double dropped = 0.0;
    SeasonResult sum;
    for (std::size_t i = 0; i < crops_.size(); ++i) {
      auto& crop = crops_[forward ? i : crops_.size() - 1 - i];
      const double drop = segment(day, flow, nitrogen, crop, at, sum);
      dropped += drop;
      nitrogen -= drop;
    }
    result_.taken_up_g += sum.uptake_g_per_m * share_ * farm_.line_m;
    result_.water_lost_g += flow * dropped;
    result_.supply_g += flow * day.nitrogen;
    if (day.nitrogen > 0.0) {
      result_.lowest_share = std::min(result_.lowest_share, nitrogen / day.nitrogen);
    }
    add(sum);
    return dropped;
  }

  [[nodiscard]] FarmResult end() const {
    FarmResult result = result_;
    subtract(result.per_m, line_.stocked());
    return result;
  }

 private:
  /// One segment's day: grows and hauls its crop; how far it draws the water down.
  double segment(const DayForcing& day, double flow, double inflow, State& crop, Count at,
                 SeasonResult& sum) const {
    const auto grown = line_.day(day, crop);
    const double metres = share_ * farm_.line_m;
    const double drop =
        nitrogen_drop(flow, inflow, [&](double c) { return metres * grown.uptake(c); });
    DayTrace trace = grown.end(inflow - drop, crop);
    count(sum, trace, line_.haul(trace, crop, at.number, at.days));
    return drop;
  }

  void add(const SeasonResult& sum) {
    SeasonResult& mean = result_.per_m;
    mean.yield_g_per_m += share_ * sum.yield_g_per_m;
    mean.nitrogen_g_per_m += share_ * sum.nitrogen_g_per_m;
    mean.uptake_g_per_m += share_ * sum.uptake_g_per_m;
    mean.lost_n_g_per_m += share_ * sum.lost_n_g_per_m;
    mean.harvests += sum.harvests > 0 ? 1 : 0;
  }

  Line line_;
  const FarmShape& farm_;
  double share_;
  std::vector<State> crops_;
  FarmResult result_;
};

/// A drop of nitrogen behind a farm, and how far half a tide carries the water.
struct Wake {
  double drop = 0.0;  ///< umol/L
  double way_m = 0.0;
};

/// What of it comes down a path: mixed, in the part of the tide in which it has come so far.
double arriving(const Wake& wake, const WaterPath& path) {
  return path.distance_m < wake.way_m
             ? wake.drop * path.share * (1.0 - path.distance_m / wake.way_m)
             : 0.0;
}

/// Several farms, a day at a time.
template <class Line>
class Bay {
 public:
  Bay(std::span<const FarmOfBay> farms, std::span<const WaterPath> paths, const Line& line)
      : farms_(farms), paths_(paths), wakes_(farms.size()) {
    for (const FarmOfBay& farm : farms) {
      seasons_.emplace_back(line, farm.shape);
    }
  }

  void day(int number) {
    const bool forward = number % 2 != 0;
    std::fill(wakes_.begin(), wakes_.end(), Wake{});
    for (std::size_t k = 0; k < farms_.size(); ++k) {
      const std::size_t i = forward ? k : farms_.size() - 1 - k;
      const int at = number - farms_[i].first_day;
      if (at >= 0 && at < static_cast<int>(farms_[i].days.size())) {
        grow(i, static_cast<std::size_t>(at), forward);
      }
    }
  }

  [[nodiscard]] std::vector<FarmResult> end() const {
    std::vector<FarmResult> out;
    for (const FarmSeason<Line>& season : seasons_) {
      out.push_back(season.end());
    }
    return out;
  }

 private:
  void grow(std::size_t i, std::size_t at, bool forward) {
    DayForcing day = farms_[i].days[at];
    double missing = 0.0;
    for (const WaterPath& path : paths_) {
      if (path.to == i && (path.from < i) == forward) {
        missing += arriving(wakes_[path.from], path);
      }
    }
    day.nitrogen = std::max(0.0, day.nitrogen - missing);
    wakes_[i] = {seasons_[i].day(day, forward, {at + 1, farms_[i].days.size()}),
                 day.current * kHalfTide_s};
  }

  std::span<const FarmOfBay> farms_;
  std::span<const WaterPath> paths_;
  std::vector<FarmSeason<Line>> seasons_;
  std::vector<Wake> wakes_;  // of the day
};

template <class Line>
std::vector<FarmResult> grow_bay(std::span<const FarmOfBay> farms, std::span<const WaterPath> paths,
                                 const Line& line) {
  int first = std::numeric_limits<int>::max();
  int last = std::numeric_limits<int>::min();
  for (const FarmOfBay& farm : farms) {
    first = std::min(first, farm.first_day);
    last = std::max(last, farm.first_day + static_cast<int>(farm.days.size()) - 1);
  }
  Bay bay(farms, paths, line);
  for (int day = first; day <= last; ++day) {
    bay.day(day);
  }
  return bay.end();
}

}  // namespace

FarmResult grow_farm(std::span<const DayForcing> days, const Husbandry& husbandry,
                     const CropModel& model, const FarmShape& farm) {
  if (days.empty()) {
    return {};
  }
  return std::visit(
      [&](const auto& constants) {
        FarmSeason season(line_of(husbandry, constants), farm);
        for (std::size_t i = 0; i < days.size(); ++i) {
          season.day(days[i], i % 2 == 0, {i + 1, days.size()});
        }
        return season.end();
      },
      model);
}

std::vector<FarmResult> grow_farms(std::span<const FarmOfBay> farms,
                                   std::span<const WaterPath> paths, const Husbandry& husbandry,
                                   const CropModel& model) {
  if (farms.empty()) {
    return {};
  }
  return std::visit(
      [&](const auto& constants) { return grow_bay(farms, paths, line_of(husbandry, constants)); },
      model);
}

}  // namespace tidelot
