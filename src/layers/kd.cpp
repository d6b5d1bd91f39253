// SPDX-License-Identifier: Apache-2.0
#include <limits>

#include "tidelot/layers/layer_set.hpp"

namespace tidelot {

double kd_from_secchi(double secchi_m) {
  if (!(secchi_m > 0.0)) {
    return std::numeric_limits<double>::quiet_NaN();
  }
  return (secchi_m < 5.0 ? 1.44 : 1.7) / secchi_m;
}

}  // namespace tidelot
