// SPDX-License-Identifier: Apache-2.0
#include "run/record/layer_json.hpp"

#include <array>

namespace tidelot::run {

using Json = nlohmann::ordered_json;

Json grid_json(const Grid& grid, const std::string& crs_name) {
  return {{"crs", grid.crs},     {"crs_name", crs_name},  {"west", grid.west},
          {"north", grid.north}, {"cell_m", grid.cell_m}, {"columns", grid.cols},
          {"rows", grid.rows}};
}

namespace {

/// Months of a property that was spread from stations.
Json months_json(const std::vector<StationMonth>& months) {
  Json out = Json::array();
  for (const StationMonth& m : months) {
    Json one{{"places", m.places},
             {"readings", m.readings},
             {"filled", m.filled},
             {"left_out", m.left_out}};
    one["rmse"] = m.left_out > 0 ? Json(m.rmse) : Json(nullptr);
    one["bias"] = m.left_out > 0 ? Json(m.bias) : Json(nullptr);
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace

Json layers_json(const std::vector<LayerReport>& reports) {
  Json out = Json::array();
  for (const LayerReport& r : reports) {
    Json one({{"key", r.key},
              {"file", r.file},
              {"what", r.what},
              {"steps", r.steps},
              {"times", r.times},
              {"gap", r.gap},
              {"unit", r.unit},
              {"crs", r.crs},
              {"operation", r.operation},
              {"cover", r.cover},
              {"patched", r.patched},
              {"low", r.low},
              {"high", r.high},
              {"verdict", r.verdict},
              {"basis", r.basis}});
    if (r.error) {
      one["error"] = *r.error;
      one["error_unit"] = r.error_unit;
      one["error_basis"] = r.error_basis;
    }
    if (!r.months.empty()) {
      one["months"] = months_json(r.months);
    }
    out.push_back(std::move(one));
  }
  return out;
}

Json field_json(const Plan& plan, const FieldChecks& checks) {
  if (!plan.field) {
    return nullptr;
  }
  constexpr std::array<const char*, 3> kApply{"confidence", "bias", "replace"};
  Json residuals = Json::array();
  for (const FieldResidual& one : checks.residuals) {
    residuals.push_back({{"property", one.property},
                         {"unit", one.unit},
                         {"n", one.count},
                         {"bias", one.bias},
                         {"rmse", one.rmse},
                         {"done", one.done}});
  }
  Json out{{"readings", plan.field->readings.written},
           {"apply", kApply[static_cast<std::size_t>(plan.field->apply)]}};
  if (plan.field->apply == FieldPlan::Apply::replace) {
    out["range_m"] = plan.field->range_m;
  }
  out["in_water"] = checks.visits.size();
  out["residuals"] = std::move(residuals);
  return out;
}

}  // namespace tidelot::run
