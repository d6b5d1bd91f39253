// SPDX-License-Identifier: Apache-2.0
#include "run/record/spread_json.hpp"

#include "run/members/tile_spread.hpp"

namespace tidelot::run {
namespace {

using Json = nlohmann::ordered_json;

Json quantiles_json(const Quantiles& q) { return {{"p10", q.p10}, {"p50", q.p50}, {"p90", q.p90}}; }

Json inputs_json(const UncertainInputs& inputs) {
  Json out = Json::array();
  for (const LayerError& layer : inputs.layers) {
    out.push_back({{"key", layer.key},
                   {"name", layer.name},
                   {"law", layer.key == "depth" || layer.key == "water.temperature" ||
                                   layer.key == "water.salinity"
                               ? "normal, added"
                               : "lognormal, multiplied"},
                   {layer.relative ? "coefficient_of_variation" : "sd", layer.sd},
                   {"unit", layer.unit},
                   {"basis", layer.basis}});
  }
  for (const ConstantRange& constant : inputs.constants) {
    out.push_back({{"key", constant.key},
                   {"law", "triangular"},
                   {"low", constant.range.low},
                   {"mode", constant.range.mode},
                   {"high", constant.range.high},
                   {"unit", constant.unit},
                   {"basis", constant.basis}});
  }
  return out;
}

Json shares_json(const SiteSpread& spread) {
  Json out = Json::array();
  for (const InputShare& one : spread.shares) {
    out.push_back({{"input", one.input},
                   {"measured", one.measured},
                   {"yield", one.yield},
                   {"nitrogen", one.nitrogen}});
  }
  return out;
}

Json site_json(const Site& site) {
  const SiteSpread& spread = *site.spread;
  Json out{{"yield_t", quantiles_json(spread.yield_t)},
           {"nitrogen_kg", quantiles_json(spread.nitrogen_kg)},
           {"suitability", quantiles_json(spread.suitability)},
           {"lost", spread.lost},
           {"shares_of_variance", shares_json(spread)},
           {"share_by_chance", spread.shares_by_chance}};
  if (site.rank > 0) {
    out["best"] = spread.best;
    out["in_three"] = spread.in_three;
    out["above_next"] = spread.above_next;
    out["ties_with_next"] = spread.ties_with_next;
  }
  return out;
}

}  // namespace

Json spread_json(const Plan& plan, const UncertainInputs* inputs, const LatticeCount& lattice,
                 const SitesResult& sites) {
  if (inputs == nullptr) {
    return {};
  }
  Json each = Json::object();
  for (const std::vector<Site>* list : {&sites.ranked, &sites.apart}) {
    for (const Site& site : *list) {
      each[site.name] = site_json(site);
    }
  }
  Json out{{"draws", plan.uncertainty.draws},
           {"seed", plan.uncertainty.seed},
           {"length_m", plan.uncertainty.length_m ? Json(*plan.uncertainty.length_m) : Json()},
           {"lattice",
            {{"tolerance", kSpreadTolerance},
             {"confidence_tolerance", kConfidenceTolerance},
             {"cells", lattice.cells},
             {"grown", lattice.grown},
             {"exact", lattice.exact}}},
           {"inputs", inputs_json(*inputs)},
           {"sites", std::move(each)}};
  if (sites.set_spread) {
    out["all_sites"] = {{"yield_t", quantiles_json(sites.set_spread->yield_t)},
                        {"nitrogen_kg", quantiles_json(sites.set_spread->nitrogen_kg)}};
  }
  return out;
}

}  // namespace tidelot::run
