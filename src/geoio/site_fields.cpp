// SPDX-License-Identifier: Apache-2.0
#include "site_fields.hpp"

#include <fmt/format.h>

#include <array>

#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

/// No spread without draws: the percentile fields stand empty.
FieldValue none(const Site& /*site*/, const Plan& /*plan*/) { return {}; }

FieldValue day(DayOfYear value) {
  return value == 0 ? FieldValue{} : FieldValue{format_month_day(value)};
}

FieldValue nearest_closed(const Site& site, const Plan& plan) {
  return site.rules.empty()
             ? FieldValue{}
             : FieldValue{plan.closed.at(static_cast<std::size_t>(site.rules.front().rule)).name};
}

FieldValue nearest_closed_m(const Site& site, const Plan& /*plan*/) {
  return site.rules.empty() ? FieldValue{} : FieldValue{site.rules.front().distance_m};
}

FieldValue cautions(const Site& site, const Plan& /*plan*/) {
  return site.cautions.empty() ? FieldValue{}
                               : FieldValue{fmt::format("{}", fmt::join(site.cautions, "; "))};
}

FieldValue limited_by(const Site& site, const Plan& /*plan*/) {
  return site.limited_by.empty() ? FieldValue{} : FieldValue{site.limited_by};
}

FieldValue corners(const Site& site, const Plan& /*plan*/) {
  std::string text;
  for (const LonLat corner : site.corners) {
    text +=
        fmt::format("{}{} {}", text.empty() ? "" : ";", fixed(corner.lon, 6), fixed(corner.lat, 6));
  }
  return text;
}

FieldValue landing_km(const Site& site, const Plan& /*plan*/) {
  return site.landing_km ? FieldValue{*site.landing_km} : FieldValue{};
}

/// A field that is a member as it stands.
#define TIDELOT_PLAIN(expression) \
  +[](const Site& s, const Plan& /*plan*/) -> FieldValue { return s.expression; }

constexpr std::array kFields{
    SiteField{"rank", OFTInteger64, TIDELOT_PLAIN(rank)},
    SiteField{"name", OFTString, TIDELOT_PLAIN(name)},
    SiteField{"lon", OFTReal, TIDELOT_PLAIN(centre.lon)},
    SiteField{"lat", OFTReal, TIDELOT_PLAIN(centre.lat)},
    SiteField{"area_ha", OFTReal, TIDELOT_PLAIN(area_ha)},
    SiteField{"suitability", OFTReal, TIDELOT_PLAIN(suitability)},
    SiteField{"yield_t", OFTReal, TIDELOT_PLAIN(yield_t)},
    SiteField{"yield_t_p10", OFTReal, none},
    SiteField{"yield_t_p90", OFTReal, none},
    SiteField{"nitrogen_kg", OFTReal, TIDELOT_PLAIN(nitrogen_kg)},
    SiteField{"nitrogen_kg_p10", OFTReal, none},
    SiteField{"nitrogen_kg_p90", OFTReal, none},
    SiteField{"depth_min_m", OFTReal, TIDELOT_PLAIN(depth_min_m)},
    SiteField{"depth_max_m", OFTReal, TIDELOT_PLAIN(depth_max_m)},
    SiteField{"outplant", OFTString,
              +[](const Site& s, const Plan& /*plan*/) { return day(s.outplant); }},
    SiteField{"last_haul", OFTString,
              +[](const Site& s, const Plan& /*plan*/) { return day(s.last_haul); }},
    SiteField{"harvests", OFTInteger64, TIDELOT_PLAIN(harvests)},
    SiteField{"line_m", OFTReal, TIDELOT_PLAIN(layout.line_m)},
    SiteField{"bundles", OFTInteger64, TIDELOT_PLAIN(layout.bundles)},
    SiteField{"landing_km", OFTReal, landing_km},
    SiteField{"nearest_closed", OFTString, nearest_closed},
    SiteField{"nearest_closed_m", OFTReal, nearest_closed_m},
    SiteField{"cautions", OFTString, cautions},
    SiteField{"limited_by", OFTString, limited_by},
    SiteField{"corners", OFTString, corners},
};

#undef TIDELOT_PLAIN

}  // namespace

std::span<const SiteField> site_fields() { return kFields; }

}  // namespace tidelot::geoio
