// SPDX-License-Identifier: Apache-2.0
#include <cpl_conv.h>
#include <fmt/format.h>
#include <malloc.h>
#include <ogr_srs_api.h>
#include <proj.h>
#include <stdlib.h>

#include <cmath>

#include "elsewhere.hpp"
#include "gdal_support.hpp"
#include "geoio.hpp"
#include "projector.hpp"

namespace tidelot::geoio {
namespace {

/// Settings of GDAL that results or safety hang on, whatever the environment says.
void set_options() {
  constexpr const char* kOptions[][2] = {
      {"GDAL_PAM_ENABLED", "NO"},        // no .aux.xml beside an input or an output
      {"GTIFF_POINT_GEO_IGNORE", "NO"},  // pixel-is-point files are shifted by GDAL, once
      {"CPL_VSIL_CURL_ALLOWED_EXTENSIONS", ".none"},  // no address is ever opened
      {"GDAL_HTTP_TIMEOUT", "1"},
      {"GDAL_CACHEMAX", "64"},         // MB, not a share of this machine's memory
      {"GDAL_SWATH_SIZE", "4194304"},  // a map's tiles go out in one order whatever the cache holds
  };
  for (const auto& option : kOptions) {
    CPLSetConfigOption(option[0], option[1]);
  }
  ::unsetenv("GDAL_NETCDF_BOTTOMUP");  // GDAL finds out by the axis
  ::setenv("PROJ_DEBUG", "0", 1);      // GDAL's own contexts print nothing either
  OSRSetPROJEnableNetwork(0);
}

/// 41.2 N 28.5 W in UTM zone 26: computed with GeographicLib 2.1.2, to a millimetre.
void check_proj_data() {
  constexpr XY kDegrees{-28.5, 41.2};
  constexpr XY kMetres{374227.8757, 4562043.9143};
  XY point = kDegrees;
  try {
    make_projector("EPSG:4326", "EPSG:32626", "PROJ", LonLatBox{})->forward({&point, 1});
  } catch (const Error&) {
    point = {NAN, NAN};
  }
  if (!(std::hypot(point.x - kMetres.x, point.y - kMetres.y) < 0.001)) {
    throw Error(Fault::input,
                "PROJ: its data (proj.db) are missing or wrong, a control point does not come out; "
                "install proj-data or unset PROJ_LIB and PROJ_DATA");
  }
}

}  // namespace

void start() {
  install_error_handler();
  set_options();
  refuse_every_fetch();
  GDALAllRegister();
  check_proj_data();
}

void hold_blocks(std::size_t bytes) {
  GDALSetCacheMax64(static_cast<GIntBig>(bytes));
  ::malloc_trim(0);  // the library keeps what GDAL let go, for this process alone
}

std::size_t held_blocks() { return static_cast<std::size_t>(GDALGetCacheUsed64()); }

std::string gdal_version() { return GDALVersionInfo("RELEASE_NAME"); }

std::string proj_version() { return proj_info().version; }

}  // namespace tidelot::geoio
