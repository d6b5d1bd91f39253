// SPDX-License-Identifier: Apache-2.0
#include "report/tables/near_json.hpp"

#include <cmath>

namespace tidelot::page {

nlohmann::ordered_json near_json(std::span<const ShapesNear> near, const Plan& plan) {
  using Json = nlohmann::ordered_json;
  const auto tenths = [](double value) { return std::round(value * 10.0) / 10.0; };
  Json all = Json::array();
  for (const ShapesNear& found : near) {
    const NearPlan& test = plan.near.at(static_cast<std::size_t>(found.test));
    all.push_back({{"name", test.name},
                   {"effect", test.closes ? "close" : "caution"},
                   {"distance_m", test.distance_m},
                   {"at_most", test.count},
                   {"within", found.within},
                   {"beyond", found.beyond},
                   {"nearest_m", found.nearest_m ? Json(tenths(*found.nearest_m)) : Json()},
                   {"bearing_deg", found.nearest_m ? Json(tenths(found.bearing_deg)) : Json()},
                   {"rule", test.rule}});
  }
  return all;
}

}  // namespace tidelot::page
