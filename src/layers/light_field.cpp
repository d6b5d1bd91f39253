// SPDX-License-Identifier: Apache-2.0
#include "light_field.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "property_field.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

Field::ToKd to_kd(const Plan& plan) {
  switch (plan.light.quantity) {
    case Quantity::secchi:
      return Field::ToKd::secchi;
    case Quantity::turbidity:
      return Field::ToKd::turbidity;
    default:
      return plan.light_relation.kd490 ? Field::ToKd::kd490 : Field::ToKd::none;
  }
}

std::string relation_text(const Field& field) {
  switch (field.to_kd) {
    case Field::ToKd::secchi:
      return " (Secchi) -> 1/m";
    case Field::ToKd::turbidity:
      return fmt::format(" -> 1/m ({} + {} x NTU)", shortest(field.light.turbidity_intercept),
                         shortest(field.light.turbidity_slope));
    case Field::ToKd::kd490:
      return " at 490 nm -> of PAR";
    case Field::ToKd::none:
      break;
  }
  return "";
}

/// Light at 490 nm goes deeper than PAR as a whole: the one must not pass for the other.
std::string objection_to_kd(const RasterInfo& info, bool kd490) {
  const bool says_490 = info.long_name.find("490") != std::string::npos;
  return says_490 && !kd490
             ? "says of itself that it is the attenuation at 490 nm, not that of PAR; set "
               "water.light.measure = \"kd490\" to convert it, or give Kd of PAR"
             : "";
}

/// The attenuation of a file or of the plan as it stands.
Field attenuation_field(const Plan& plan, Opening& opening) {
  const bool kd490 = plan.light_relation.kd490;
  const PlausibleRange range{kKd490Low, kKd490High};
  const auto* file = std::get_if<FileRef>(&plan.light.source);
  if (!file || plan.light.quantity != Quantity::attenuation) {
    return water_field(plan.light, opening);
  }
  RasterWish wish = file_wish(plan.light, *file, opening);
  wish.range = kd490 ? std::optional(range) : std::nullopt;
  wish.objection = [kd490](const RasterInfo& info) { return objection_to_kd(info, kd490); };
  return file_field(plan.light, wish, opening).field;
}

}  // namespace

/// Attenuation, or what it follows from.
Field light_field(const Plan& plan, Opening& opening) {
  Field field = attenuation_field(plan, opening);
  field.to_kd = to_kd(plan);
  field.light = plan.light_relation;
  if (field.to_kd == Field::ToKd::none) {
    return field;
  }
  if (field.to_kd == Field::ToKd::kd490) {
    opening.warnings.push_back(
        plan.light.key +
        ": attenuation at 490 nm becomes that of PAR by a relation of clear "
        "ocean water (Morel et al. 2007); in a turbid or brown bay it is off, "
        "measure Secchi depths there");
  }
  for (double& value : field.constant) {
    value = kd_of(field, value);
    if (std::isnan(value) && field.parts.empty()) {
      throw Error(
          Fault::plan,
          fmt::format("{}: attenuation at 490 nm becomes that of PAR from {} to {} 1/m only; "
                      "give Kd of PAR",
                      plan.light.key, shortest(kKd490Low), shortest(kKd490High)));
    }
  }
  LayerReport& report = opening.reports.back();
  const double ends[] = {kd_of(field, report.low), kd_of(field, report.high)};
  report.low = std::min(ends[0], ends[1]);
  report.high = std::max(ends[0], ends[1]);
  report.unit += relation_text(field);
  return field;
}

}  // namespace tidelot
