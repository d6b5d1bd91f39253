// SPDX-License-Identifier: Apache-2.0
#include "stated_reference.hpp"

#include <fmt/format.h>

#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

bool is_same(const OGRSpatialReference& a, const OGRSpatialReference& b) {
  const char* const options[] = {"CRITERION=EQUIVALENT_EXCEPT_AXIS_ORDER_GEOGCRS", nullptr};
  return a.IsSame(&b, options) != 0;
}

/// "NAVD88 height"
std::string vertical_name(const OGRSpatialReference& compound) {
  const char* name = compound.GetAttrValue("COMPD_CS|VERT_CS");
  return foreign_text(name != nullptr ? name : "unnamed");
}

StatedReference of_file(const InputFile& input, const OGRSpatialReference& own) {
  StatedReference stated{with_traditional_axes(own), ""};
  if (!input.file.crs.empty()) {
    const OGRSpatialReference plan =
        make_reference(input.file.crs, input.key + ".crs", Fault::plan);
    if (!is_same(plan, stated.reference)) {
      throw input.error(
          fmt::format("states that its reference system is {}, the plan's crs is {}; "
                      "take crs out, or correct the file",
                      reference_name(stated.reference), reference_name(plan)));
    }
  }
  if (own.IsCompound() != 0) {
    stated.basis = fmt::format(
        "the vertical part of its reference system ({}) is not applied: the plan's datum is "
        "believed",
        vertical_name(own));
  }
  return stated;
}

}  // namespace

std::string_view crs_key_hint(std::string_view key) {
  const bool known = (key.starts_with("depth") && !key.ends_with("low_water_m")) ||
                     key.starts_with("water.") || key.starts_with("closed");
  return known ? " (or write crs = \"EPSG:n\" beside it in the plan)" : "";
}

std::optional<StatedReference> stated_reference(const InputFile& input,
                                                const OGRSpatialReference* own) {
  if (own != nullptr && is_on_earth(with_traditional_axes(*own))) {
    return of_file(input, *own);
  }
  if (input.file.crs.empty()) {
    return std::nullopt;
  }
  OGRSpatialReference reference = make_reference(input.file.crs, input.key + ".crs", Fault::plan);
  if (!is_on_earth(reference)) {
    throw Error(Fault::plan, fmt::format("{}.crs: \"{}\" is not tied to the earth; give EPSG:n",
                                         input.key, foreign_text(input.file.crs)));
  }
  std::string basis = fmt::format("reference system from the plan, {}: the file states none",
                                  reference_name(reference));
  return StatedReference{std::move(reference), std::move(basis)};
}

}  // namespace tidelot::geoio
