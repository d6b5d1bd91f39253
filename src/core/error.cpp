// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/error.hpp"

#include "tidelot/core/text.hpp"

namespace tidelot {

Error::Error(Fault fault, const std::string& line)
    : std::runtime_error(one_line(line)), fault_(fault) {}

}  // namespace tidelot
