// SPDX-License-Identifier: Apache-2.0
#include "site_fields.hpp"

#include <charconv>
#include <cmath>

#include "report/tables/site_cells.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

OGRFieldType type_of(cells::CellKind kind) {
  switch (kind) {
    case cells::CellKind::whole:
      return OFTInteger64;
    case cells::CellKind::figure:
      return OFTReal;
    case cells::CellKind::words:
    case cells::CellKind::digits:
      break;
  }
  return OFTString;
}

struct ToField {
  FieldValue operator()(std::monostate) const { return {}; }
  FieldValue operator()(std::int64_t value) const { return value; }
  /// The number that sites.csv prints.
  FieldValue operator()(const cells::Figure& figure) const {
    if (!std::isfinite(figure.value)) {
      return {};
    }
    const std::string text = fixed(figure.value, figure.decimals);
    double printed = 0.0;
    std::from_chars(text.data(), text.data() + text.size(), printed);
    return printed;
  }
  FieldValue operator()(const std::string& text) const {
    return text.empty() ? FieldValue{} : FieldValue{text};
  }
};

}  // namespace

std::vector<SiteField> site_fields(const Site& site, const Plan& plan) {
  std::vector<SiteField> fields;
  for (const cells::SiteCell& cell : cells::site_cells(site, plan)) {
    fields.push_back({cell.column, type_of(cell.kind), std::visit(ToField{}, cell.value)});
  }
  return fields;
}

}  // namespace tidelot::geoio
