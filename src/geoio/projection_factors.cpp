// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <proj.h>
#include <proj_experimental.h>

#include <new>
#include <numbers>
#include <utility>

#include "geoio/gdal_support.hpp"
#include "geoio/geoio.hpp"
#include "geoio/proj_context.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

/// The system without a shift to another datum that may be tied to it.
ProjHandle<PJ> unbound(PJ_CONTEXT* context, ProjHandle<PJ> system) {
  const bool bound = system != nullptr && proj_get_type(system.get()) == PJ_TYPE_BOUND_CRS;
  return bound ? ProjHandle<PJ>(proj_get_source_crs(context, system.get())) : std::move(system);
}

/// The same projection with easting before northing, in metres. proj_factors differentiates the
/// coordinates as the system lists them: northing first would give a negative area, feet a scale
/// of 3.28.
ProjHandle<PJ> in_metres_east_north(PJ_CONTEXT* context, const PJ* system) {
  const ProjHandle<PJ> base(proj_get_source_crs(context, system));
  const ProjHandle<PJ> projection(proj_crs_get_coordoperation(context, system));
  const ProjHandle<PJ> axes(
      proj_create_cartesian_2D_cs(context, PJ_CART2D_EASTING_NORTHING, "metre", 1.0));
  return ProjHandle<PJ>(
      proj_create_projected_crs(context, "in metres", base.get(), projection.get(), axes.get()));
}

ProjHandle<PJ> projected_system(const ProjContext& context, const std::string& crs) {
  const std::string text = reference_text(make_reference(crs, "crs", Fault::plan));
  const ProjHandle<PJ> system =
      unbound(context.get(), ProjHandle<PJ>(proj_create(context.get(), text.c_str())));
  if (system == nullptr || proj_get_type(system.get()) != PJ_TYPE_PROJECTED_CRS) {
    context.throw_if_short_of_memory();
    throw Error(Fault::plan, fmt::format("crs: \"{}\" is not a projected reference system; give "
                                         "\"auto\" or one in metres",
                                         foreign_text(crs)));
  }
  return in_metres_east_north(context.get(), system.get());
}

ProjectionFactors factors_at(PJ* system, const std::string& crs, LonLat place) {
  const PJ_FACTORS found =
      proj_factors(system, proj_coord(place.lon * kDegree, place.lat * kDegree, 0, 0));
  if (proj_errno(system) != 0 || !(found.areal_scale > 0.0)) {
    throw Error(Fault::plan,
                fmt::format("crs: \"{}\" has no scale at {}, {}; choose a system made "
                            "for the area",
                            foreign_text(crs), shortest(place.lon), shortest(place.lat)));
  }
  return {found.tissot_semiminor, found.tissot_semimajor, found.areal_scale,
          found.meridian_convergence / kDegree + 0.0};  // + 0.0: never -0
}

}  // namespace

std::vector<ProjectionFactors> projection_factors(const std::string& crs,
                                                  std::span<const LonLat> places) {
  const ProjContext context;
  const ProjHandle<PJ> system = projected_system(context, crs);
  if (system == nullptr) {
    throw std::bad_alloc();
  }
  std::vector<ProjectionFactors> all;
  for (const LonLat place : places) {
    all.push_back(factors_at(system.get(), crs, place));
  }
  return all;
}

ProjectionFactors projection_factors(const std::string& crs, LonLat place) {
  return projection_factors(crs, {&place, 1}).front();
}

}  // namespace tidelot::geoio
