// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <ogr_core.h>

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "tidelot/sites/sites.hpp"

namespace tidelot::geoio {

/// The value of a field; std::monostate where there is none (NULL).
using FieldValue = std::variant<std::monostate, std::int64_t, double, std::string>;

/// A field of the layer `sites`, named as the column of sites.csv, and a site's value: rounded as
/// sites.csv prints it, so a figure is the same in every file.
struct SiteField {
  const char* name;
  OGRFieldType type;
  FieldValue value;
};

/// A site's fields in the order of sites.csv: names and types are the same for every site.
[[nodiscard]] std::vector<SiteField> site_fields(const Site& site, const Plan& plan);

}  // namespace tidelot::geoio
