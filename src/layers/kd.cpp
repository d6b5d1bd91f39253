// SPDX-License-Identifier: Apache-2.0
#include <cmath>
#include <limits>

#include "tidelot/layers/kd_error.hpp"
#include "tidelot/layers/layer_set.hpp"

namespace tidelot {

double kd_from_secchi(double secchi_m, SecchiRelation relation) {
  if (!(secchi_m > 0.0)) {
    return std::numeric_limits<double>::quiet_NaN();
  }
  switch (relation) {
    case SecchiRelation::poole_atkins_1929:
      return 1.7 / secchi_m;
    case SecchiRelation::holmes_1970:
      return 1.44 / secchi_m;
    case SecchiRelation::devlin_2008:
      return std::exp(0.253 - 1.029 * std::log(secchi_m));
    case SecchiRelation::montes_hugo_2005:
      return 1.48 * std::pow(secchi_m, -1.16);
    case SecchiRelation::automatic:
      break;
  }
  return (secchi_m < 5.0 ? 1.44 : 1.7) / secchi_m;
}

double kd_from_kd490(double kd490) {
  if (!(kd490 >= kKd490Low && kd490 <= kKd490High)) {
    return std::numeric_limits<double>::quiet_NaN();
  }
  return 0.0864 + 0.884 * kd490 - 0.00137 / kd490;
}

double kd_error(double kd, double error, Quantity measured, const LightPlan& light) {
  switch (measured) {
    case Quantity::secchi: {
      // Every relation is Kd = a Z^-power.
      const double power = light.secchi == SecchiRelation::montes_hugo_2005 ? 1.16
                           : light.secchi == SecchiRelation::devlin_2008    ? 1.029
                                                                            : 1.0;
      const double at_1m = kd_from_secchi(1.0, light.secchi);
      const bool clear = light.secchi == SecchiRelation::automatic && kd < at_1m / 5.0;
      const double secchi_m =
          std::pow((clear ? kd_from_secchi(5.0) * 5.0 : at_1m) / kd, 1.0 / power);
      return power * kd / secchi_m * error;
    }
    case Quantity::turbidity:
      return std::abs(light.turbidity_slope) * error;
    default:
      return error;
  }
}

}  // namespace tidelot
