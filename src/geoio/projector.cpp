// SPDX-License-Identifier: Apache-2.0
// PROJ is asked directly, not through GDAL: GDAL picks an operation per batch of points and does
// not say which, while a run has to name the one it used and use it for every point.
#include "projector.hpp"

#include <fmt/format.h>
#include <proj.h>

#include <cmath>
#include <limits>
#include <new>
#include <utility>

#include "gdal_support.hpp"
#include "proj_context.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

ProjHandle<PJ> best_operation(PJ_CONTEXT* context, const PJ* from, const PJ* to,
                              const LonLatBox& area, bool ballpark) {
  const ProjHandle<PJ_OPERATION_FACTORY_CONTEXT> factory(
      proj_create_operation_factory_context(context, nullptr));
  if (factory == nullptr) {
    throw std::bad_alloc();
  }
  proj_operation_factory_context_set_allow_ballpark_transformations(context, factory.get(),
                                                                    ballpark ? 1 : 0);
  proj_operation_factory_context_set_spatial_criterion(context, factory.get(),
                                                       PROJ_SPATIAL_CRITERION_PARTIAL_INTERSECTION);
  proj_operation_factory_context_set_grid_availability_use(
      context, factory.get(), PROJ_GRID_AVAILABILITY_DISCARD_OPERATION_IF_MISSING_GRID);
  if (!is_whole_earth(area)) {
    proj_operation_factory_context_set_area_of_interest(context, factory.get(), area.west,
                                                        area.south, area.east, area.north);
  }
  const ProjHandle<PJ_OBJ_LIST> list(proj_create_operations(context, from, to, factory.get()));
  return ProjHandle<PJ>(list != nullptr && proj_list_get_count(list.get()) > 0
                            ? proj_list_get(context, list.get(), 0)
                            : nullptr);
}

std::string describe(PJ_CONTEXT* context, const PJ* operation) {
  const char* name = proj_get_name(operation);
  const double accuracy = proj_coordoperation_get_accuracy(context, operation);
  const std::string text = foreign_text(name != nullptr ? name : "unnamed operation");
  const bool exact = accuracy == 0.0 || proj_get_type(operation) == PJ_TYPE_CONVERSION;
  return exact            ? text + ", exact"
         : accuracy < 0.0 ? text + ", accuracy unknown"
                          : fmt::format("{}, accuracy {} m", text, shortest(accuracy));
}

/// What a projector is made from: plain text, so that a clone shares nothing.
struct Ends {
  OGRSpatialReference from;
  OGRSpatialReference to;
  std::string key;
  LonLatBox area;
  bool allow_ballpark = false;
};

class ProjProjector final : public Projector {
 public:
  explicit ProjProjector(Ends ends) : ends_(std::move(ends)) {
    const ProjHandle<PJ> from(proj_create(context_.get(), reference_text(ends_.from).c_str()));
    const ProjHandle<PJ> to(proj_create(context_.get(), reference_text(ends_.to).c_str()));
    const bool known = from != nullptr && to != nullptr;
    if (known && proj_is_equivalent_to_with_ctx(context_.get(), from.get(), to.get(),
                                                PJ_COMP_EQUIVALENT_EXCEPT_AXIS_ORDER_GEOGCRS)) {
      operation_ = "none needed";
      return;
    }
    ProjHandle<PJ> plain;
    for (const bool ballpark : {false, true}) {
      if (known && plain == nullptr && (!ballpark || ends_.allow_ballpark)) {
        plain = best_operation(context_.get(), from.get(), to.get(), ends_.area, ballpark);
      }
    }
    transformation_.reset(
        plain != nullptr ? proj_normalize_for_visualization(context_.get(), plain.get()) : nullptr);
    if (transformation_ == nullptr) {
      refuse();
    }
    operation_ = describe(context_.get(), plain.get());
  }

  void forward(std::span<XY> points) override { transform(PJ_FWD, points); }
  void inverse(std::span<XY> points) override { transform(PJ_INV, points); }
  [[nodiscard]] std::unique_ptr<Projector> clone() const override {
    return std::make_unique<ProjProjector>(ends_);
  }
  [[nodiscard]] const std::string& operation() const override { return operation_; }

 private:
  [[noreturn]] void refuse() const {
    context_.throw_if_short_of_memory();
    throw Error(
        Fault::input,
        fmt::format("{}: no known coordinate operation leads from {} to {}; give the layer in "
                    "a system that PROJ can tie to the other, or write [run] allow = "
                    "[\"ballpark\"] if a shift between the datums doesn't matter",
                    ends_.key, reference_name(ends_.from), reference_name(ends_.to)));
  }

  void transform(PJ_DIRECTION direction, std::span<XY> points) {
    if (transformation_ == nullptr || points.empty()) {
      return;
    }
    proj_trans_generic(transformation_.get(), direction, &points[0].x, sizeof(XY), points.size(),
                       &points[0].y, sizeof(XY), points.size(), nullptr, 0, 0, nullptr, 0, 0);
    proj_errno_reset(transformation_.get());
    constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
    for (XY& p : points) {
      if (!std::isfinite(p.x) || !std::isfinite(p.y)) {
        p = {kNan, kNan};
      }
    }
  }

  Ends ends_;
  ProjContext context_;
  ProjHandle<PJ> transformation_;  ///< none where both systems are the same
  std::string operation_;
};

}  // namespace

bool is_whole_earth(const LonLatBox& box) {
  return box.west <= -180.0 && box.east >= 180.0 && box.south <= -90.0 && box.north >= 90.0;
}

std::unique_ptr<Projector> make_projector(const std::string& from, const std::string& to,
                                          const std::string& key, const LonLatBox& area,
                                          bool allow_ballpark) {
  return std::make_unique<ProjProjector>(
      Ends{make_reference(from, key), make_reference(to, key), key, area, allow_ballpark});
}

}  // namespace tidelot::geoio
