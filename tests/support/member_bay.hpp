// SPDX-License-Identifier: Apache-2.0
// A square of water for the tests of members: its forcing, best estimate and places.
#pragma once

#include <cmath>
#include <random>
#include <vector>

#include "run/members/member_lattice.hpp"
#include "run/tiles/forcing.hpp"
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

/// side x side cells. noise: 0 smooth, 1 much, drawn anew at every so many cells and linear
/// between.
class Water {
 public:
  Water(const Plan& plan, int side, double noise, int noise_cells = 1)
      : setup_(plan), side_(side), noise_cells_(noise_cells) {
    TileLayers layers;
    const auto cells = static_cast<std::size_t>(side) * static_cast<std::size_t>(side);
    std::vector<std::size_t> all;
    for (std::size_t i = 0; i < cells; ++i) {
      all.push_back(i);
      const int col = static_cast<int>(i) % side;
      const int row = static_cast<int>(i) / side;
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

  /// All of it wanted. As long as this lives.
  [[nodiscard]] run::MemberGround ground() const {
    run::MemberGround out;
    out.cols = out.rows = side_;
    out.wanted.assign(size(), 1);
    out.known = [](std::uint32_t) { return true; };
    out.water = [this](std::span<const std::uint32_t> cells) {
      return run::subset(forcing_.kernel, cells);
    };
    out.place = [this](std::uint32_t cell) { return places_[cell]; };
    out.stocked = stocked(setup_.husbandry(), setup_.constants());
    return out;
  }
  [[nodiscard]] const run::TileForcing& forcing() const { return forcing_; }
  [[nodiscard]] const KernelResult& result() const { return result_; }
  [[nodiscard]] std::span<const XY> places() const { return places_; }
  [[nodiscard]] std::size_t size() const { return places_.size(); }

 private:
  MonthlyTile year(int side, double mean, double swing, double slope, double noise) {
    std::uniform_real_distribution<double> draw(-noise, noise);
    const int nodes = (side - 1) / noise_cells_ + 2;
    std::vector<double> drawn(static_cast<std::size_t>(nodes * nodes) * kMonths);
    for (double& one : drawn) {
      one = noise > 0.0 ? draw(random_) : 0.0;
    }
    const auto off = [&](int col, int row, std::size_t month) {
      const auto at = [&](int i, int j) {
        return drawn[static_cast<std::size_t>((row / noise_cells_ + j) * nodes +
                                              col / noise_cells_ + i) *
                         kMonths +
                     month];
      };
      const double x = static_cast<double>(col % noise_cells_) / noise_cells_;
      const double y = static_cast<double>(row % noise_cells_) / noise_cells_;
      return (1.0 - y) * ((1.0 - x) * at(0, 0) + x * at(1, 0)) +
             y * ((1.0 - x) * at(0, 1) + x * at(1, 1));
    };
    MonthlyTile tile;
    for (int row = 0; row < side; ++row) {
      for (int col = 0; col < side; ++col) {
        for (std::size_t month = 0; month < kMonths; ++month) {
          const double phase = 2.0 * 3.14159265358979 * (static_cast<double>(month) - 7.0) / 12.0;
          tile.month[month].push_back(static_cast<float>(
              mean + slope * (col - row / 2.0) + swing * std::cos(phase) + off(col, row, month)));
        }
      }
    }
    return tile;
  }

  std::mt19937 random_{5};
  run::SeasonSetup setup_;
  int side_, noise_cells_;
  std::vector<XY> places_;
  run::TileForcing forcing_;
  KernelResult result_;
};

}  // namespace tidelot::member_bay
