// SPDX-License-Identifier: Apache-2.0
#include "run/layer_json.hpp"

namespace tidelot::run {

using Json = nlohmann::ordered_json;

Json grid_json(const Grid& grid, const std::string& crs_name) {
  return {{"crs", grid.crs},     {"crs_name", crs_name},  {"west", grid.west},
          {"north", grid.north}, {"cell_m", grid.cell_m}, {"columns", grid.cols},
          {"rows", grid.rows}};
}

Json layers_json(const std::vector<LayerReport>& reports) {
  Json out = Json::array();
  for (const LayerReport& r : reports) {
    out.push_back({{"key", r.key},
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
  }
  return out;
}

}  // namespace tidelot::run
