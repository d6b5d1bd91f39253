// SPDX-License-Identifier: Apache-2.0
// A square of water for the tests of members: its forcing, best estimate and places.
#pragma once

#include <cmath>
#include <random>
#include <vector>

#include "run/forcing.hpp"
#include "run/member_seasons.hpp"
#include "tidelot/plan/crop_profile.hpp"

namespace tidelot::member_bay {

inline constexpr double kCell_m = 10.0;

inline Plan plan(int draws = 32) {
  Plan plan;
  plan.crop = built_in_crop("warm-red-alga");
  plan.temperature.key = "water.temperature";
  plan.salinity.key = "water.salinity";
  plan.light.key = "water.light";
  plan.light.quantity = Quantity::attenuation;
  plan.nitrogen.key = "water.nitrogen";
  plan.current.key = "water.current";
  plan.depth.error_m = 0.3;
  plan.uncertainty.draws = draws;
  return plan;
}

/// What the plan's layers may be off, and nothing of the crop.
inline run::UncertainInputs water_alone(const Plan& plan) {
  auto inputs = run::uncertain_inputs(plan, {});
  inputs.constants.clear();
  return inputs;
}

/// Nothing is off.
inline run::UncertainInputs sure(const Plan& plan) {
  auto inputs = water_alone(plan);
  for (run::LayerError& layer : inputs.layers) {
    layer.sd = 0.0;
  }
  return inputs;
}

/// side x side cells. noise: 0 smooth, 1 every node of every cell of its own.
class Water {
 public:
  Water(const Plan& plan, int side, double noise) : setup_(plan) {
    TileLayers layers;
    const auto cells = static_cast<std::size_t>(side) * static_cast<std::size_t>(side);
    std::vector<std::size_t> all;
    for (std::size_t i = 0; i < cells; ++i) {
      all.push_back(i);
      const int col = static_cast<int>(i) % side;
      const int row = static_cast<int>(i) / side;
      cells_.push_back({col, row});
      places_.push_back({3.7e5 + kCell_m * col, 4.56e6 - kCell_m * row});
    }
    layers.temperature = year(side, 16.0, 8.0, 0.01, 4.0 * noise);
    layers.salinity = year(side, 28.0, 1.0, -0.02, 3.0 * noise);
    layers.attenuation = year(side, 0.8, -0.1, 0.004, 0.3 * noise);
    layers.nitrogen = year(side, 8.0, -4.0, -0.03, 3.0 * noise);
    layers.current = year(side, 0.15, 0.0, 0.0005, 0.05 * noise);
    layers.depth_low_water.assign(cells, 6.0F);
    layers.inside.assign(cells, 1);
    forcing_ = run::tile_forcing(layers, all, std::vector<float>(cells, 41.0F), setup_);
    result_ = grow_tile(forcing_.kernel, setup_.husbandry(), setup_.constants());
  }

  [[nodiscard]] run::GrownCells best() const {
    return {forcing_.kernel, forcing_.windows,
            result_,         stocked(setup_.husbandry(), setup_.constants()),
            cells_,          places_};
  }
  [[nodiscard]] const run::TileForcing& forcing() const { return forcing_; }
  [[nodiscard]] const KernelResult& result() const { return result_; }
  [[nodiscard]] std::span<const XY> places() const { return places_; }
  [[nodiscard]] std::size_t size() const { return cells_.size(); }

 private:
  MonthlyTile year(int side, double mean, double swing, double slope, double noise) {
    std::uniform_real_distribution<double> off(-noise, noise);
    MonthlyTile tile;
    for (int row = 0; row < side; ++row) {
      for (int col = 0; col < side; ++col) {
        for (std::size_t month = 0; month < kMonths; ++month) {
          const double phase = 2.0 * 3.14159265358979 * (static_cast<double>(month) - 7.0) / 12.0;
          const double off_here = noise > 0.0 ? off(random_) : 0.0;
          tile.month[month].push_back(static_cast<float>(mean + slope * (col - row / 2.0) +
                                                         swing * std::cos(phase) + off_here));
        }
      }
    }
    return tile;
  }

  std::mt19937 random_{5};
  run::SeasonSetup setup_;
  std::vector<run::TileCell> cells_;
  std::vector<XY> places_;
  run::TileForcing forcing_;
  KernelResult result_;
};

}  // namespace tidelot::member_bay
