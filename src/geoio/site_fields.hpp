// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <ogr_core.h>

#include <cstdint>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "tidelot/sites/sites.hpp"

namespace tidelot::geoio {

/// A field of the layer `sites`, named as the column of sites.csv.
struct SiteField {
  const char* name;
  OGRFieldType type;
};

/// The fields in the order of sites.csv.
[[nodiscard]] std::span<const SiteField> site_fields();

/// The value of a field; std::monostate where there is none (NULL).
using FieldValue = std::variant<std::monostate, std::int64_t, double, std::string>;

/// A site's values in the order of site_fields(), rounded as sites.csv prints them: a figure is the
/// same in every file.
[[nodiscard]] std::vector<FieldValue> site_values(const Site& site, const Plan& plan);

}  // namespace tidelot::geoio
