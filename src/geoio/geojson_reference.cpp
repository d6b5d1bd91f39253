// SPDX-License-Identifier: Apache-2.0
#include "geojson_reference.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <string_view>

#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

using Json = nlohmann::json;

/// The members of the collection but its features; null where there are none.
Json members_of(const InputFile& input) {
  const char* const drivers[] = {"GeoJSON", nullptr};
  const char* const options[] = {"NATIVE_DATA=YES", nullptr};
  const DatasetHandle again(GDALDataset::Open(input.path.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY,
                                              drivers, options, nullptr));
  OGRLayer* const layer = again != nullptr ? again->GetLayer(0) : nullptr;
  const char* const text =
      layer != nullptr ? layer->GetMetadataItem("NATIVE_DATA", "NATIVE_DATA") : nullptr;
  const Json members = Json::parse(text != nullptr ? text : "null", nullptr, false);
  return members.is_object() ? members : Json();
}

/// What GDAL is told: the name of a "crs" that names one; "" for any other kind.
std::string name_in(const Json& crs) {
  const auto properties = crs.is_object() ? crs.find("properties") : crs.end();
  if (!crs.is_object() || crs.value("type", Json()) != "name" || properties == crs.end() ||
      !properties->is_object()) {
    return "";
  }
  const Json name = properties->value("name", Json());
  return name.is_string() ? name.get<std::string>() : "";
}

}  // namespace

void refuse_unread_reference(const InputFile& input, GDALDataset& dataset) {
  if (std::string_view(dataset.GetDriverName()) != "GeoJSON") {
    return;
  }
  const Json members = members_of(input);
  const auto crs = members.find("crs");
  if (crs == members.end() || crs->is_null()) {
    return;
  }
  const Failures failures;
  const std::string name = name_in(*crs);
  OGRSpatialReference known;
  if (name.empty() ||
      known.SetFromUserInput(name.c_str(),
                             OGRSpatialReference::SET_FROM_USER_INPUT_LIMITATIONS_get()) !=
          OGRERR_NONE) {
    throw input.error(fmt::format(
        "states a reference system that is not known ({}); save it anew, or take \"crs\" out of it "
        "where it is WGS 84",
        foreign_text(name.empty() ? crs->dump(-1, ' ', true) : name)));
  }
}

}  // namespace tidelot::geoio
