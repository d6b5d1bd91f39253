// SPDX-License-Identifier: Apache-2.0
// The members of a run: each the same bay with other water and another crop, each as likely.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "run/members/uncertain_inputs.hpp"
#include "run/tiles/forcing.hpp"
#include "tidelot/core/grid.hpp"
#include "tidelot/core/random_field.hpp"

namespace tidelot::run {

/// Standard normal deviates of the layers' errors at some places, all members.
struct Deviates {
  std::size_t members = 0;
  bool everywhere = true;                          ///< the same at all places: one row
  std::array<std::vector<float>, kErrorLayers> z;  ///< [place * members + member]

  [[nodiscard]] double of(ErrorLayer layer, std::size_t place, std::size_t member) const {
    return z[static_cast<std::size_t>(layer)][(everywhere ? 0 : place * members) + member];
  }
};

/// Draws them. A worker has its own. Errors belong to a bay: those alike everywhere are drawn at
/// the place of its middle, so two bays share the crop's draws but not their layers' errors, and
/// two plans of one bay share both.
class LayerDraws {
 public:
  /// middle: of the bay's area, counted to a hundredth of a degree.
  LayerDraws(const UncertaintyPlan& plan, const UncertainInputs& inputs, LonLat middle = {});
  /// places: in the grid's system.
  [[nodiscard]] Deviates at(std::span<const XY> places);
  /// Of one layer at one place, all members.
  [[nodiscard]] std::vector<float> at(ErrorLayer layer, XY place);
  /// Are errors the same at all places?
  [[nodiscard]] bool everywhere() const { return fields_.empty(); }

 private:
  std::size_t members_;
  Deviates everywhere_;
  std::vector<RandomField> fields_;  ///< one a layer; none where an error is alike everywhere
};

/// The members' crops, and what errors make of the water. Read only.
class Members {
 public:
  /// Throws Error(plan) when constants within their ranges contradict each other.
  Members(const Plan& plan, UncertainInputs inputs);

  [[nodiscard]] std::size_t size() const { return setups_.size(); }
  [[nodiscard]] const UncertainInputs& inputs() const { return inputs_; }
  /// Season and crop of a member.
  [[nodiscard]] const SeasonSetup& setup(std::size_t member) const { return setups_[member]; }
  /// The values drawn for a constant, index as in inputs().constants.
  [[nodiscard]] std::span<const double> constant(std::size_t index) const {
    return constants_[index];
  }
  [[nodiscard]] Stocked stocked(std::size_t member) const;

  /// What is added to the depth, m.
  [[nodiscard]] double depth_shift(const Deviates& deviates, std::size_t place,
                                   std::size_t member) const;
  /// What the current is multiplied by where its mean is this (m/s).
  [[nodiscard]] double current_factor(double mean, const Deviates& deviates, std::size_t place,
                                      std::size_t member) const;
  /// One standard deviation of a layer that is off by a sum; of one that is off by a factor the
  /// coefficient of variation where its mean over the year is this.
  [[nodiscard]] double sd(ErrorLayer layer) const { return error(layer).sd; }
  [[nodiscard]] double variation(ErrorLayer layer, double mean) const;

 private:
  [[nodiscard]] const LayerError& error(ErrorLayer layer) const {
    return inputs_.layers[static_cast<std::size_t>(layer)];
  }

  UncertainInputs inputs_;
  Quantity light_measured_;
  LightPlan light_;
  std::vector<std::vector<double>> constants_;  ///< [constant][member]
  std::vector<SeasonSetup> setups_;
};

/// The members' water in some cells, from the best estimate's.
class MemberWater {
 public:
  /// deviates: of the cells' places. All must live as long.
  MemberWater(const KernelForcing& best, const Members& members, Deviates deviates);
  MemberWater(KernelForcing&&, const Members&, Deviates) = delete;
  /// A member's water in place of what `water`, a copy of the best estimate, holds; its windows
  /// stay.
  void put(std::size_t member, KernelForcing& water) const;

 private:
  using Row = std::vector<float>;
  void add(ErrorLayer layer, std::size_t member, float least, const NodeArray& from,
           NodeArray& to) const;
  [[nodiscard]] Row factors(ErrorLayer layer, std::size_t member) const;
  void scale(const Row& factors, const NodeArray& from, NodeArray& to) const;

  const KernelForcing& best_;
  const Members& members_;
  Deviates deviates_;
  /// Of each cell and layer that is off by a factor: the spread of its logarithm.
  std::array<std::vector<double>, kErrorLayers> spread_;
};

/// The named ones of what stands in a row for some cells.
template <typename T>
[[nodiscard]] std::vector<T> some_of(const std::vector<T>& all,
                                     std::span<const std::uint32_t> cells) {
  std::vector<T> out;
  out.reserve(cells.size());
  for (const std::uint32_t cell : cells) {
    out.push_back(all[cell]);
  }
  return out;
}

/// Some of a tile's cells.
[[nodiscard]] KernelForcing subset(const KernelForcing& all, std::span<const std::uint32_t> cells);

}  // namespace tidelot::run
