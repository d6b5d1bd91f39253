// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/crop.hpp"

#include <algorithm>
#include <stdexcept>

namespace tidelot {

double Crop::at(std::string_view constant) const {
  const auto found = std::find_if(constants.begin(), constants.end(),
                                  [&](const CropConstant& c) { return c.name == constant; });
  if (found == constants.end()) {
    throw std::out_of_range("crop profile '" + name + "' has no constant " + std::string(constant));
  }
  return found->value;
}

}  // namespace tidelot
