// SPDX-License-Identifier: Apache-2.0
#include <nlohmann/json.hpp>

#include "run/area.hpp"
#include "run/memory/memory.hpp"
#include "run/record/layer_json.hpp"
#include "run/sites/site_positions.hpp"
#include "run/workers.hpp"
#include "tidelot/run.hpp"

namespace tidelot {

CheckResult check_layers(const Plan& plan) {
  CheckResult result;
  run::Area area = run::open_area(plan, &result.problems);
  try {
    static_cast<void>(run::Printing(plan, area));
  } catch (const Error& problem) {
    result.problems.push_back(problem);
  }
  result.grid = area.layers->grid();
  result.grid_crs_name = area.layers->grid_crs_name();
  result.layers = area.layers->reports();
  result.warnings = area.warnings;
  result.field = area.layers->field_checks();
  if (result.problems.empty()) {
    const run::MemoryNeed need = run::memory_need(plan, *area.layers);
    result.memory = run::predicted_memory(need, run::workers_for(0)).total();
  }
  return result;
}

std::string check_json(const Plan& plan, const CheckResult& result) {
  using Json = nlohmann::ordered_json;
  Json defaults = Json::object();
  for (const ResolvedKey& key : plan.keys) {
    if (!key.given) {
      defaults[key.key] = {{"value", Json::parse(key.value)}, {"basis", key.basis}};
    }
  }
  Json to_mend = Json::array();
  for (const Error& problem : result.problems) {
    to_mend.push_back(problem.what());
  }
  const Json out{{"title", plan.title},
                 {"ready", result.problems.empty()},
                 {"grid", run::grid_json(result.grid, result.grid_crs_name)},
                 {"vertical_datum", plan.depth.datum},
                 {"layers", run::layers_json(result.layers)},
                 {"field", run::field_json(plan, result.field)},
                 {"defaults", std::move(defaults)},
                 {"warnings", result.warnings},
                 {"memory_bytes", result.memory > 0 ? Json(result.memory) : Json()},
                 {"to_mend", std::move(to_mend)}};
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace tidelot
