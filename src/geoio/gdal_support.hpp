// SPDX-License-Identifier: Apache-2.0
// Shared by the sources of this room only: handles that close themselves, what GDAL complained of,
// and the one factory of reference systems.
#pragma once

#include <gdal_priv.h>
#include <ogr_spatialref.h>
#include <ogrsf_frmts.h>

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "tidelot/core/error.hpp"

namespace tidelot::geoio {

using DatasetHandle = GDALDatasetUniquePtr;
using FeatureHandle = OGRFeatureUniquePtr;
using GeometryHandle = OGRGeometryUniquePtr;

/// Sets GDAL's error handler to one that prints nothing and keeps the text of every failure for the
/// thread it happened on. GDAL's return codes miss most write errors; these texts don't.
void install_error_handler();

/// What GDAL complained of on this thread while the object lives. Scopes may be nested: an outer
/// one also sees what happened in an inner one.
class Failures {
 public:
  Failures();
  ~Failures();
  Failures(const Failures&) = delete;
  Failures& operator=(const Failures&) = delete;
  [[nodiscard]] bool any() const;
  [[nodiscard]] std::size_t count() const;
  /// The first failure as one line without control characters, "no reason given" when there is
  /// none.
  [[nodiscard]] std::string text() const;

 private:
  std::size_t begin_;
};

/// The only place that makes a reference system: longitude before latitude, easting before
/// northing. crs is "EPSG:n", WKT or a PROJ string; anything else (a file, an address) is refused.
/// Throws Error(fault): "<key>: ...".
[[nodiscard]] OGRSpatialReference make_reference(const std::string& crs, std::string_view key,
                                                 Fault fault = Fault::input);

/// The same for a system that a file brought along; a vertical part is taken off.
[[nodiscard]] OGRSpatialReference with_traditional_axes(const OGRSpatialReference& reference);

/// Is it tied to the earth (geographic or projected), unlike a drawing's own axes?
[[nodiscard]] bool is_on_earth(const OGRSpatialReference& reference);

/// "WGS 84 / UTM zone 26N (EPSG:32626)".
[[nodiscard]] std::string reference_name(const OGRSpatialReference& reference);

/// "EPSG:32626" where the system is one, else WKT2.
[[nodiscard]] std::string reference_text(const OGRSpatialReference& reference);

}  // namespace tidelot::geoio
