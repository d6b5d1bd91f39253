// SPDX-License-Identifier: Apache-2.0
// The figures of a site: the columns of sites.csv and the fields of the layer `sites`.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "tidelot/plan/plan.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::cells {

/// digits: text made here of digits, signs and separators; words: text that others may have
/// written.
enum class CellKind { whole, figure, words, digits };

/// A number and the decimals it is printed with.
struct Figure {
  double value = 0.0;
  int decimals = 0;
};

/// std::monostate where there is none.
using CellValue = std::variant<std::monostate, std::int64_t, Figure, std::string>;

struct SiteCell {
  const char* column;
  CellKind kind;
  CellValue value;
};

/// All of them, in the order of the columns, which are the same for every site. New ones go to the
/// end.
[[nodiscard]] std::vector<SiteCell> site_cells(const Site& site, const Plan& plan);

}  // namespace tidelot::cells
