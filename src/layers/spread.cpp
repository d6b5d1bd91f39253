// SPDX-License-Identifier: Apache-2.0
#include "spread.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace tidelot {
namespace {

using PlacesOfCell = std::map<std::size_t, std::vector<std::size_t>>;

double weight(double distance, const Falloff& falloff) {
  const double square = distance * distance + falloff.nugget_m * falloff.nugget_m;
  // A plain quotient gives the same bits everywhere; a power need not.
  return falloff.power == 2.0 ? 1.0 / square : std::pow(square, -falloff.power / 2.0);
}

/// Weighted sums over the lattice, place by place, and what each place sees of the others.
class Sums {
 public:
  Sums(const Waterway& way, std::span<const PlaceMeans> places, const Falloff& falloff)
      : way_(way), places_(places), falloff_(falloff), seen_(places.size()) {
    for (std::size_t m = 0; m < kMonths; ++m) {
      const bool any = std::any_of(places.begin(), places.end(), [m](const PlaceMeans& place) {
        return !std::isnan(place.mean[m]);
      });
      value_[m].resize(any ? way.grid().size() : 0, 0.0);
      weight_[m].resize(value_[m].size(), 0.0);
    }
    PlacesOfCell of_cell;
    for (std::size_t i = 0; i < places.size(); ++i) {
      of_cell[places[i].cell].push_back(i);
    }
    for (const auto& [cell, members] : of_cell) {
      add(cell, members);
    }
  }

  /// Empty where no place has a value.
  [[nodiscard]] std::vector<float> surface(std::size_t month) const {
    std::vector<float> out;
    for (std::size_t i = 0; i < value_[month].size(); ++i) {
      const double w = weight_[month][i];
      out.push_back(w > 0.0 ? static_cast<float>(value_[month][i] / w)
                            : std::numeric_limits<float>::quiet_NaN());
    }
    return out;
  }

  /// Predicted less measured, of each place that others see.
  [[nodiscard]] std::vector<double> left_out(std::size_t month) const {
    std::vector<double> out;
    for (std::size_t i = 0; i < places_.size(); ++i) {
      double sum = 0.0;
      double weights = 0.0;
      for (std::size_t j = 0; j < places_.size(); ++j) {
        const double value = places_[j].mean[month];
        if (j != i && !std::isnan(value)) {
          sum += seen_[i][j] * value;
          weights += seen_[i][j];
        }
      }
      if (weights > 0.0 && !std::isnan(places_[i].mean[month])) {
        out.push_back(sum / weights - places_[i].mean[month]);
      }
    }
    return out;
  }

 private:
  void add(std::size_t cell, const std::vector<std::size_t>& members) {
    const Grid& grid = way_.grid();
    const auto cols = static_cast<std::size_t>(grid.cols);
    const GridVector<float> distance = water_distance(
        way_, grid.centre(static_cast<int>(cell % cols), static_cast<int>(cell / cols)));
    std::vector<double> weights(distance.size(), 0.0);
    for (std::size_t i = 0; i < distance.size(); ++i) {
      if (!std::isnan(distance[i])) {
        weights[i] = weight(static_cast<double>(distance[i]), falloff_);
      }
    }
    for (const std::size_t member : members) {
      for (const PlaceMeans& place : places_) {
        seen_[member].push_back(weights[place.cell]);
      }
      add_values(places_[member], weights);
    }
  }

  void add_values(const PlaceMeans& place, const std::vector<double>& weights) {
    for (std::size_t m = 0; m < kMonths; ++m) {
      if (!std::isnan(place.mean[m])) {
        for (std::size_t i = 0; i < weights.size(); ++i) {
          value_[m][i] += weights[i] * place.mean[m];
          weight_[m][i] += weights[i];
        }
      }
    }
  }

  const Waterway& way_;
  std::span<const PlaceMeans> places_;
  Falloff falloff_;
  std::array<std::vector<double>, kMonths> value_;
  std::array<std::vector<double>, kMonths> weight_;
  std::vector<std::vector<double>> seen_;  ///< [place][other]: weight of the other at the place
};

LeftOut summary(const std::vector<double>& errors) {
  LeftOut out;
  out.count = static_cast<int>(errors.size());
  for (const double error : errors) {
    out.bias += error;
    out.rmse += error * error;
  }
  if (out.count > 0) {
    out.bias /= out.count;
    out.rmse = std::sqrt(out.rmse / out.count);
  }
  return out;
}

/// The nearest month with values, and how many months away, going forwards (step 1) or back (-1).
std::pair<std::size_t, int> nearest(const Surfaces& surfaces, std::size_t month, int step) {
  for (int away = 1; away < kMonths; ++away) {
    const auto at =
        static_cast<std::size_t>((static_cast<int>(month) + step * away + kMonths) % kMonths);
    if (!surfaces.filled[at]) {
      return {at, away};
    }
  }
  return {month, 1};
}

void fill_months(Surfaces& surfaces) {
  for (std::size_t m = 0; m < kMonths; ++m) {
    if (!surfaces.filled[m]) {
      continue;
    }
    const auto [before, back] = nearest(surfaces, m, -1);
    const auto [after, on] = nearest(surfaces, m, 1);
    const std::vector<float>& a = surfaces.month[before];
    const std::vector<float>& b = surfaces.month[after];
    const double share = static_cast<double>(back) / (back + on);
    surfaces.month[m].resize(a.size());
    std::transform(a.begin(), a.end(), b.begin(), surfaces.month[m].begin(), [&](float x, float y) {
      return static_cast<float>(double{x} + share * (double{y} - double{x}));
    });
  }
}

}  // namespace

Surfaces spread(const Waterway& way, std::span<const PlaceMeans> places, const Falloff& falloff) {
  const Sums sums(way, places, falloff);
  Surfaces out;
  std::vector<double> all;
  for (std::size_t m = 0; m < kMonths; ++m) {
    out.month[m] = sums.surface(m);
    out.filled[m] = out.month[m].empty();
    const std::vector<double> errors = sums.left_out(m);
    out.left_out[m] = summary(errors);
    all.insert(all.end(), errors.begin(), errors.end());
  }
  out.all = summary(all);
  fill_months(out);
  return out;
}

}  // namespace tidelot
