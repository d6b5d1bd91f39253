// SPDX-License-Identifier: Apache-2.0
#include "run/members/uncertain_inputs.hpp"

#include <algorithm>
#include <cmath>

namespace tidelot::run {
namespace {

constexpr std::string_view kNotVerified = "default, not verified: judgement";

struct Known {
  double sd;
  std::string unit;
  std::string basis;
};

std::optional<Known> stated(std::string_view key, std::span<const LayerReport> reports) {
  const auto found = std::find_if(reports.begin(), reports.end(),
                                  [&](const LayerReport& r) { return r.key == key && r.error; });
  if (found == reports.end()) {
    return std::nullopt;
  }
  return Known{*found->error, found->error_unit, found->error_basis};
}

/// Of nitrate and ammonium given apart: their errors are independent.
std::optional<Known> both(const std::optional<Known>& a, const std::optional<Known>& b) {
  if (a && b) {
    return Known{std::hypot(a->sd, b->sd), a->unit, a->basis + "; ammonium: " + b->basis};
  }
  return a ? a : b;
}

std::optional<Known> nitrogen_error(const Plan& plan, std::span<const LayerReport> reports) {
  return plan.nitrate
             ? both(stated(plan.nitrate->key, reports), stated(plan.ammonium->key, reports))
             : stated(plan.nitrogen.key, reports);
}

LayerError layer_error(std::string key, std::string name, const std::optional<Known>& known,
                       const LayerError& otherwise) {
  if (known) {
    return {std::move(key), std::move(name), known->sd, false, known->unit, known->basis, false};
  }
  LayerError error = otherwise;
  error.key = std::move(key);
  error.name = std::move(name);
  return error;
}

/// A standard deviation by judgement.
LayerError judged(double sd, std::string unit, std::string_view why = kNotVerified) {
  return {"", "", sd, unit.empty(), std::move(unit), std::string(why), true};
}

}  // namespace

UncertainInputs uncertain_inputs(const Plan& plan, std::span<const LayerReport> reports) {
  const auto water = [&](const WaterPlan& property, std::string name, const LayerError& otherwise) {
    return layer_error(property.key, std::move(name), stated(property.key, reports), otherwise);
  };
  UncertainInputs out;
  out.layers = {
      water(plan.temperature, "temperature", judged(0.5, "degC")),
      water(plan.salinity, "salinity", judged(1.0, "1")),
      water(plan.light, "light in the water", judged(0.25, "")),
      layer_error("water.nitrogen", "dissolved nitrogen", nitrogen_error(plan, reports),
                  judged(0.40, "")),
      water(plan.current, "current", judged(0.25, "")),
      LayerError{"depth", "depth", plan.depth.error_m, false, "m", "depth.error_m"},
  };
  for (const CropConstant& constant : plan.crop.constants) {
    if (constant.low < constant.high) {
      out.constants.push_back({"crop." + constant.name,
                               {constant.low, constant.value, constant.high},
                               constant.unit,
                               constant.source});
    }
  }
  return out;
}

std::uint32_t stream_of(std::string_view key) {
  std::uint32_t hash = 2166136261U;  // FNV-1a
  for (const char c : key) {
    hash = (hash ^ static_cast<unsigned char>(c)) * 16777619U;
  }
  return hash & 0x7FFFFFFFU;  // the highest bit is taken: core/draws.cpp
}

}  // namespace tidelot::run
