// SPDX-License-Identifier: Apache-2.0
#include "run/members/members.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/layers/kd_error.hpp"

namespace tidelot::run {
namespace {

constexpr std::array kErrorLayerList{ErrorLayer::temperature, ErrorLayer::salinity,
                                     ErrorLayer::light,       ErrorLayer::nitrogen,
                                     ErrorLayer::current,     ErrorLayer::depth};

std::vector<std::vector<double>> drawn_constants(const UncertaintyPlan& plan,
                                                 const UncertainInputs& inputs) {
  std::vector<std::vector<double>> out;
  for (const ConstantRange& constant : inputs.constants) {
    auto values = latin_hypercube(plan.seed, {stream_of(constant.key), 0, 0}, plan.draws);
    for (double& value : values) {
      value = triangular_quantile(value, constant.range);
    }
    out.push_back(std::move(values));
  }
  return out;
}

/// Where a bay's errors are drawn.
Place bay_place(std::uint32_t stream, LonLat middle) {
  const auto hundredths = [](double degrees) {
    return static_cast<std::uint32_t>(static_cast<std::int32_t>(std::lround(100.0 * degrees)));
  };
  return {stream, hundredths(middle.lon), hundredths(middle.lat)};
}

CropConstant& constant_of(Crop& crop, const std::string& key) {
  return *std::find_if(crop.constants.begin(), crop.constants.end(),
                       [&](const CropConstant& c) { return "crop." + c.name == key; });
}

/// The plan with one member's crop.
SeasonSetup setup_of(const Plan& plan, const UncertainInputs& inputs,
                     const std::vector<std::vector<double>>& values, std::size_t member) {
  Plan other = plan;
  for (std::size_t i = 0; i < inputs.constants.size(); ++i) {
    constant_of(other.crop, inputs.constants[i].key).value = values[i][member];
  }
  try {
    return SeasonSetup(other);
  } catch (const Error& problem) {
    throw Error(Fault::plan,
                fmt::format("{}; within the ranges (low, high) of the profile's constants members "
                            "of the uncertainty contradict themselves: narrow them, or set "
                            "uncertainty.draws = 0",
                            problem.what()));
  }
}

/// Mean over the year of one cell.
double mean_of(const NodeArray& nodes, std::size_t cells, std::size_t cell) {
  double sum = 0.0;
  for (std::size_t row = 0; row < nodes.rows(); ++row) {
    sum += static_cast<double>(nodes.values[row * cells + cell]);
  }
  return sum / static_cast<double>(nodes.rows());
}

NodeArray some_nodes(const NodeArray& all, std::size_t n, std::span<const std::uint32_t> cells) {
  NodeArray out;
  out.steady = all.steady;
  out.daily = all.daily;
  if (all.values.empty()) {
    return out;
  }
  out.values.reserve(all.rows() * cells.size());
  for (std::size_t row = 0; row < all.rows(); ++row) {
    for (const std::uint32_t cell : cells) {
      out.values.push_back(all.values[row * n + cell]);
    }
  }
  return out;
}

}  // namespace

LayerDraws::LayerDraws(const UncertaintyPlan& plan, const UncertainInputs& inputs, LonLat middle)
    : members_(static_cast<std::size_t>(plan.draws)) {
  everywhere_.members = members_;
  for (const ErrorLayer layer : kErrorLayerList) {
    const auto index = static_cast<std::size_t>(layer);
    const std::uint32_t stream = stream_of(inputs.layers[index].key);
    if (plan.length_m) {
      fields_.emplace_back(plan.seed, stream, plan.draws, *plan.length_m);
      continue;
    }
    for (const double p : latin_hypercube(plan.seed, bay_place(stream, middle), plan.draws)) {
      everywhere_.z[index].push_back(static_cast<float>(normal_quantile(p)));
    }
  }
}

Deviates LayerDraws::at(std::span<const XY> places) {
  if (fields_.empty()) {
    return everywhere_;
  }
  Deviates out;
  out.members = members_;
  out.everywhere = false;
  for (std::size_t layer = 0; layer < kErrorLayers; ++layer) {
    out.z[layer].reserve(places.size() * members_);
    for (const XY place : places) {
      const std::vector<float> z = fields_[layer].at(place);
      out.z[layer].insert(out.z[layer].end(), z.begin(), z.end());
    }
  }
  return out;
}

std::vector<float> LayerDraws::at(ErrorLayer layer, XY place) {
  const auto index = static_cast<std::size_t>(layer);
  return fields_.empty() ? everywhere_.z[index] : fields_[index].at(place);
}

Members::Members(const Plan& plan, UncertainInputs inputs)
    : inputs_(std::move(inputs)),
      light_measured_(plan.light.quantity),
      light_(plan.light_relation),
      constants_(drawn_constants(plan.uncertainty, inputs_)) {
  for (std::size_t member = 0; member < static_cast<std::size_t>(plan.uncertainty.draws);
       ++member) {
    setups_.push_back(setup_of(plan, inputs_, constants_, member));
  }
}

Stocked Members::stocked(std::size_t member) const {
  return tidelot::stocked(setups_[member].husbandry(), setups_[member].constants());
}

double Members::variation(ErrorLayer layer, double mean) const {
  const LayerError& of = error(layer);
  if (of.relative) {
    return of.sd;
  }
  const double sd =
      layer == ErrorLayer::light ? kd_error(mean, of.sd, light_measured_, light_) : of.sd;
  return mean > 0.0 ? sd / mean : 0.0;
}

double Members::depth_shift(const Deviates& deviates, std::size_t place, std::size_t member) const {
  return error(ErrorLayer::depth).sd * deviates.of(ErrorLayer::depth, place, member);
}

double Members::current_factor(double mean, const Deviates& deviates, std::size_t place,
                               std::size_t member) const {
  return lognormal_factor(deviates.of(ErrorLayer::current, place, member),
                          variation(ErrorLayer::current, mean));
}

MemberWater::MemberWater(const KernelForcing& best, const Members& members, Deviates deviates)
    : best_(best), members_(members), deviates_(std::move(deviates)) {
  const auto set = [&](ErrorLayer layer, const NodeArray& nodes) {
    for (std::size_t cell = 0; cell < best.cells; ++cell) {
      const double cv = members.variation(layer, mean_of(nodes, best.cells, cell));
      spread_[static_cast<std::size_t>(layer)].push_back(lognormal_spread(cv));
    }
  };
  set(ErrorLayer::light, best.attenuation);
  set(ErrorLayer::nitrogen, best.nitrogen);
  set(ErrorLayer::current, best.current);
}

void MemberWater::add(ErrorLayer layer, std::size_t member, float least, const NodeArray& from,
                      NodeArray& to) const {
  const std::size_t n = best_.cells;
  Row shift(n);
  for (std::size_t cell = 0; cell < n; ++cell) {
    shift[cell] = static_cast<float>(members_.sd(layer) * deviates_.of(layer, cell, member));
  }
  for (std::size_t first = 0; first < from.values.size(); first += n) {
    for (std::size_t cell = 0; cell < n; ++cell) {
      to.values[first + cell] = std::max(least, from.values[first + cell] + shift[cell]);
    }
  }
}

MemberWater::Row MemberWater::factors(ErrorLayer layer, std::size_t member) const {
  const std::vector<double>& spread = spread_[static_cast<std::size_t>(layer)];
  Row out(spread.size());
  for (std::size_t cell = 0; cell < out.size(); ++cell) {
    // Mostly the layer's error is a share of it and alike in all cells.
    const bool as_before = cell > 0 && deviates_.everywhere && spread[cell] == spread[cell - 1];
    out[cell] = as_before ? out[cell - 1]
                          : static_cast<float>(lognormal_of_spread(
                                deviates_.of(layer, cell, member), spread[cell]));
  }
  return out;
}

void MemberWater::scale(const Row& factors, const NodeArray& from, NodeArray& to) const {
  const std::size_t n = best_.cells;
  for (std::size_t first = 0; first < from.values.size(); first += n) {
    for (std::size_t cell = 0; cell < n; ++cell) {
      to.values[first + cell] = from.values[first + cell] * factors[cell];
    }
  }
}

void MemberWater::put(std::size_t member, KernelForcing& water) const {
  constexpr float kAny = -1e9F;
  add(ErrorLayer::temperature, member, kAny, best_.temperature, water.temperature);
  add(ErrorLayer::salinity, member, 0.0F, best_.salinity, water.salinity);
  scale(factors(ErrorLayer::light, member), best_.attenuation, water.attenuation);
  const Row more = factors(ErrorLayer::nitrogen, member);
  scale(more, best_.nitrogen, water.nitrogen);
  scale(more, best_.ammonium, water.ammonium);
  scale(factors(ErrorLayer::current, member), best_.current, water.current);
}

KernelForcing subset(const KernelForcing& all, std::span<const std::uint32_t> cells) {
  const auto nodes = [&](const NodeArray& array) { return some_nodes(array, all.cells, cells); };
  KernelForcing out;
  out.cells = cells.size();
  out.temperature = nodes(all.temperature);
  out.salinity = nodes(all.salinity);
  out.attenuation = nodes(all.attenuation);
  out.nitrogen = nodes(all.nitrogen);
  out.current = nodes(all.current);
  out.ammonium = nodes(all.ammonium);
  out.radiation = nodes(all.radiation);
  out.outplant = some_of(all.outplant, cells);
  out.last_haul = some_of(all.last_haul, cells);
  out.sun_radiation_mj = all.sun_radiation_mj;
  out.sun_day_length_h = all.sun_day_length_h;
  out.sun_day_length_change = all.sun_day_length_change;
  out.latitude_weight = some_of(all.latitude_weight, cells);
  return out;
}

}  // namespace tidelot::run
