// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "tidelot/layers/opener.hpp"

namespace tidelot {

/// What a status column's words mean, capitals and blanks at the ends aside. Plain words: closed,
/// yes, mapped, present / open, no, absent, "surveyed and absent". Classes of shellfish growing
/// areas (published: 9 VAC 25-260-160; 322 CMR 16.03; 15A NCAC 18A .0903), whose meaning hangs on
/// what the crop is for (common practice, no source):
///   approved: open. conditionally approved: open to a crop that is no food, else not known, since
///   the condition is not in the class. restricted, conditionally restricted: closed to food, else
///   a caution. prohibited: closed to food, else not known (done with permission: ask).
///   unclassified: not known.
/// Anything else, and nothing, is not known.
[[nodiscard]] Standing standing_of(const std::string& status, bool food);

}  // namespace tidelot
