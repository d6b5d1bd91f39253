// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/version.hpp"

namespace tidelot {

std::string_view version() { return TIDELOT_VERSION; }

}  // namespace tidelot
