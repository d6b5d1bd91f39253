// SPDX-License-Identifier: Apache-2.0
#include "tidelot/sites/spread.hpp"

namespace tidelot {

double chance_above(std::span<const double> a, std::span<const double> b) {
  double above = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    above += a[i] > b[i] ? 1.0 : a[i] == b[i] ? 0.5 : 0.0;
  }
  return a.empty() ? 0.0 : above / static_cast<double>(a.size());
}

}  // namespace tidelot
