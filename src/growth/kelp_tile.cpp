// SPDX-License-Identifier: Apache-2.0
// A kelp season in every cell of a tile.
#include <algorithm>
#include <cmath>

#include "growth/kelp_day.hpp"
#include "tidelot/growth/kelp.hpp"
#include "tidelot/season/sun.hpp"

namespace tidelot {
namespace {

/// ln(beta/alpha) at every tenth of a degree; between two of them it runs all but straight.
class InhibitionTable {
 public:
  explicit InhibitionTable(const KelpConstants& k) {
    double last = kelp::inhibition(kelp::p_max(kColdest, k), k);
    for (int i = 0; i <= kLast; ++i) {
      last = kelp::inhibition_near(kelp::p_max(kColdest + i / kPerDegree, k), last, k);
      log_[static_cast<std::size_t>(i)] = std::log(last);
    }
  }

  [[nodiscard]] double operator()(double temperature) const {
    const double place =
        std::clamp((temperature - kColdest) * kPerDegree, 0.0, static_cast<double>(kLast - 1));
    const auto i = static_cast<std::size_t>(place);
    return std::exp(log_[i] + (place - static_cast<double>(i)) * (log_[i + 1] - log_[i]));
  }

 private:
  static constexpr double kColdest = -10.0;
  static constexpr double kPerDegree = 10.0;
  static constexpr int kLast = 600;
  std::array<double, kLast + 1> log_{};
};

/// One property's nodes in one cell.
class CellNodes {
 public:
  CellNodes(const NodeArray& from, std::size_t cells, std::size_t cell) : steady_(from.steady) {
    for (std::size_t row = 0; row < from.rows(); ++row) {
      nodes_.push_back(static_cast<double>(from.values[row * cells + cell]));
    }
  }

  [[nodiscard]] double on(DayOfYear day) const {
    return steady_ ? nodes_[0] : daily_value(nodes_, day);
  }
  [[nodiscard]] double amount_on(DayOfYear day) const { return std::max(0.0, on(day)); }

 private:
  bool steady_;
  std::vector<double> nodes_;
};

/// A table of the sun between its two latitudes.
class CellSun {
 public:
  CellSun(const std::array<std::vector<float>, 2>& tables, float weight)
      : tables_(tables), weight_(static_cast<double>(weight)) {}

  [[nodiscard]] double on(DayOfYear day) const {
    const auto i = static_cast<std::size_t>((day - 1) % kDaysPerYear);
    const double first = static_cast<double>(tables_[0][i]);
    return first + weight_ * (static_cast<double>(tables_[1][i]) - first);
  }

 private:
  const std::array<std::vector<float>, 2>& tables_;
  double weight_;
};

/// One cell's water and sun, day by day.
class CellForcing {
 public:
  CellForcing(const KernelForcing& f, std::size_t cell)
      : temperature_(f.temperature, f.cells, cell),
        salinity_(f.salinity, f.cells, cell),
        attenuation_(f.attenuation, f.cells, cell),
        nitrogen_(f.nitrogen, f.cells, cell),
        current_(f.current, f.cells, cell),
        ammonium_given_(!f.ammonium.values.empty()),
        ammonium_(ammonium_given_ ? f.ammonium : f.nitrogen, f.cells, cell),
        radiation_given_(!f.radiation.values.empty()),
        radiation_(radiation_given_ ? f.radiation : f.temperature, f.cells, cell),
        sun_(f.sun_radiation_mj, f.latitude_weight[cell]),
        day_length_(f.sun_day_length_h, f.latitude_weight[cell]),
        change_(f.sun_day_length_change, f.latitude_weight[cell]) {}

  [[nodiscard]] DayForcing on(int day) const {
    const double radiation = radiation_given_ ? radiation_.amount_on(day) : sun_.on(day);
    DayForcing out{temperature_.on(day),     salinity_.amount_on(day), attenuation_.amount_on(day),
                   nitrogen_.amount_on(day), current_.amount_on(day),  par_below_surface(radiation),
                   day_length_.on(day),      change_.on(day)};
    if (ammonium_given_) {
      out.nh4_share = ammonium_share(ammonium_.amount_on(day), out.nitrogen);
    }
    return out;
  }

 private:
  CellNodes temperature_, salinity_, attenuation_, nitrogen_, current_;
  bool ammonium_given_;
  CellNodes ammonium_;
  bool radiation_given_;
  CellNodes radiation_;
  CellSun sun_, day_length_, change_;
};

void grow_cell(const KernelForcing& forcing, std::size_t cell, const InhibitionTable& inhibition,
               const Husbandry& husbandry, const KelpConstants& k, KernelResult& result) {
  const int days = forcing.last_haul[cell] - forcing.outplant[cell] + 1;
  if (days <= 0) {
    return;
  }
  const CellForcing water(forcing, cell);
  const Frond seed{k.start_area, k.start_n, k.start_c};
  Frond frond = seed;
  std::array<double, kFactors> sum{};
  for (int day = forcing.outplant[cell]; day <= forcing.last_haul[cell]; ++day) {
    const DayForcing today = water.on(day);
    const KelpDay whole(today, frond, inhibition(today.temperature), husbandry, k);
    whole.move(frond);
    const std::array<double, kFactors> factors = whole.factors();
    for (std::size_t j = 0; j < kFactors; ++j) {
      sum[j] += factors[j];
    }
  }
  const double hauled = k.fronds_per_m * kelp::wet_weight(frond, k);
  result.yield_g_per_m[cell] =
      static_cast<float>(hauled - k.fronds_per_m * kelp::wet_weight(seed, k));
  result.nitrogen_g_per_m[cell] = static_cast<float>(
      k.fronds_per_m * (kelp::total_nitrogen(frond, k) - kelp::total_nitrogen(seed, k)));
  result.harvests[cell] = hauled > 0.0 ? 1 : 0;
  for (std::size_t j = 0; j < kFactors; ++j) {
    result.mean_factor[j][cell] = static_cast<float>(sum[j] / days);
  }
}

}  // namespace

KernelResult grow_tile(const KernelForcing& forcing, const Husbandry& husbandry,
                       const KelpConstants& constants) {
  const InhibitionTable inhibition(constants);
  KernelResult result;
  result.yield_g_per_m.resize(forcing.cells);
  result.nitrogen_g_per_m.resize(forcing.cells);
  result.harvests.resize(forcing.cells);
  for (auto& factor : result.mean_factor) {
    factor.resize(forcing.cells);
  }
  for (std::size_t cell = 0; cell < forcing.cells; ++cell) {
    grow_cell(forcing, cell, inhibition, husbandry, constants, result);
  }
  return result;
}

}  // namespace tidelot
