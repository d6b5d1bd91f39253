// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <ogr_core.h>

#include <cstdint>
#include <span>
#include <string>
#include <variant>

#include "tidelot/sites/sites.hpp"

namespace tidelot::geoio {

/// The value of a field; std::monostate where there is none (NULL).
using FieldValue = std::variant<std::monostate, std::int64_t, double, std::string>;

/// A field of the layer `sites`, named as the column of sites.csv. Numbers are kept in full:
/// nothing is rounded for print here.
struct SiteField {
  const char* name;
  OGRFieldType type;
  FieldValue (*value)(const Site& site, const Plan& plan);
};

/// The fields in the order of sites.csv.
[[nodiscard]] std::span<const SiteField> site_fields();

}  // namespace tidelot::geoio
