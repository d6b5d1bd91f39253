// SPDX-License-Identifier: Apache-2.0
#include "spatial_index.hpp"

#include <fmt/format.h>

#include <optional>
#include <string>

namespace tidelot::geoio {
namespace {

/// The one number that a query gives.
std::optional<GIntBig> number(GDALDataset& file, const std::string& query) {
  OGRLayer* rows = file.ExecuteSQL(query.c_str(), nullptr, nullptr);
  if (rows == nullptr) {
    return std::nullopt;
  }
  std::optional<GIntBig> found;
  if (const FeatureHandle row(rows->GetNextFeature()); row != nullptr) {
    found = row->GetFieldAsInteger64(0);
  }
  file.ReleaseResultSet(rows);
  return found;
}

/// The condition that a side of a feature's box in the index is where its shape ends.
std::string same_side(const char* side, const char* function, const std::string& shape) {
  constexpr double kSinglePrecision_deg = 1e-4;
  return fmt::format("ABS(i.{} - {}(t.\"{}\")) < {}", side, function, shape, kSinglePrecision_deg);
}

bool has_whole_index(GDALDataset& file, OGRLayer& layer) {
  const std::string name = layer.GetName(), shape = layer.GetGeometryColumn();
  return number(file, fmt::format(
                          R"(SELECT COUNT(*) FROM "{0}" t JOIN "rtree_{0}_{1}" i )"
                          R"(ON t."{2}" = i.id WHERE {3} AND {4} AND {5} AND {6})",
                          name, shape, layer.GetFIDColumn(), same_side("minx", "ST_MinX", shape),
                          same_side("maxx", "ST_MaxX", shape), same_side("miny", "ST_MinY", shape),
                          same_side("maxy", "ST_MaxY", shape))) == layer.GetFeatureCount();
}

}  // namespace

bool has_whole_indices(GDALDataset& file) {
  for (OGRLayer* layer : file.GetLayers()) {
    if (!has_whole_index(file, *layer)) {
      return false;
    }
  }
  return true;
}

}  // namespace tidelot::geoio
