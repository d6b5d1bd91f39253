// SPDX-License-Identifier: Apache-2.0
#include "report/maps/map_look.hpp"

#include <fmt/format.h>

#include "report/maps/coded_map.hpp"
#include "report/maps/map_range.hpp"
#include "report/words/say.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason_codes.hpp"

namespace tidelot::page {
namespace {

/// What the page hatches, where nothing can be hatched.
constexpr Rgb kFlatNotKnown{158, 163, 170};
constexpr Rgb kFlatClosed{120, 116, 104};
/// Suitability above 0 begins here; 0 itself is closed, or not good at all.
constexpr double kAboveZero = 1e-6;
/// A share of data: no quantity of the page has this ramp.
constexpr std::array<Rgb, 2> kGreys{kInk, kPaper};

std::string value_and_unit(double value, int decimals, const std::string& unit) {
  return fixed(value, decimals) + (unit.empty() ? "" : " " + unit);
}

/// The ramp's own colours at even steps over a range; one step where the range has no width.
std::vector<LookStep> steps_of(Ramp ramp, MapRange range, const std::string& unit) {
  const double span = range.high - range.low;
  const std::size_t count = span > 0.0 ? ramp.size() : 1;
  std::vector<LookStep> steps;
  for (std::size_t i = 0; i < count; ++i) {
    const double value =
        range.low + span * static_cast<double>(i) / static_cast<double>(ramp.size() - 1);
    steps.push_back({value, ramp[i], value_and_unit(value, decimals_for(span), unit)});
  }
  return steps;
}

MapLook look(std::string map, std::string_view title, std::string about,
             std::vector<LookStep> steps) {
  return {std::move(map), label(title), std::move(about), false, std::move(steps)};
}

MapLook codes(std::string map, std::string_view title, std::string about,
              std::vector<LookStep> steps) {
  return {std::move(map), label(title), std::move(about), true, std::move(steps)};
}

MapLook suitability(const ReportData& data) {
  std::vector<LookStep> steps = steps_of(batlow(), {0.0, 1.0}, "");
  steps.front().value = kAboveZero;
  steps.insert(steps.begin(), {0.0, kClosed, label("style.zero")});
  return look("suitability", "map.suitability",
              label(data.plan->combine == Combine::minimum ? "map.suitability_lowest"
                                                           : "map.suitability_mean"),
              std::move(steps));
}

MapLook measured(std::string map, std::string_view title, std::string about, Ramp ramp,
                 MapRange range, const std::string& unit) {
  return look(std::move(map), title, std::move(about),
              steps_of(ramp, round_range(range, 1.0), unit));
}

MapLook closed() {
  const std::string by_rules = label("style.closed_by_bits");
  return codes("closed", "style.closed", label("style.closed_about"),
               {{0.0, kPaper, label("style.nothing_closes"), true},
                {1.0, kFlatClosed, by_rules},
                {kClosedUnknown - 1.0, kFlatClosed, by_rules},
                {static_cast<double>(kClosedUnknown), kFlatNotKnown, label("map.not_known")},
                {static_cast<double>(kClosedNotWater), kPaper, label("style.not_water"), true}});
}

/// A code that waits for data looks not known; one of water as on the page.
Rgb reason_colour(const ReasonLooks& looks, std::size_t each) {
  const Style& style = looks.styles[each];
  return style.base == not_known_style().base ? kFlatNotKnown : style.base;
}

MapLook reasons(const ReportData& data) {
  std::vector<LookStep> steps;
  const ReasonLooks looks = reason_looks(data);
  for (std::size_t each = 0; each < data.reason_names.size(); ++each) {
    if (!data.reason_names[each].empty()) {
      steps.push_back({static_cast<double>(each), reason_colour(looks, each),
                       translated(data.reason_names[each]), each == reason::kOutside});
    }
  }
  return codes("reason", "map.reason", label("map.reason_about"), std::move(steps));
}

MapLook depth_sources(const ReportData& data) {
  std::vector<LookStep> steps;
  const auto sources = data.plan->depth.sources();
  for (std::size_t i = 0; i < sources.size(); ++i) {
    const double place = (static_cast<double>(i) + 0.5) / static_cast<double>(sources.size());
    steps.push_back({static_cast<double>(i), colour_at(batlow(), place), sources[i].title()});
  }
  return codes("depth_source", "style.depth_source", label("style.depth_source_about"),
               std::move(steps));
}

}  // namespace

std::vector<MapLook> map_looks(const ReportData& data) {
  std::vector<MapLook> looks{
      suitability(data),
      measured("yield", "map.yield", label("map.yield_about"), bamako(), data.ranges.yield_kg_per_m,
               label("map.kg_per_m")),
      measured("nitrogen", "map.nitrogen", label("map.nitrogen_about"), acton(),
               data.ranges.nitrogen_g_per_m, label("map.g_per_m")),
      look("season", "style.outplant", label("style.season_about"),
           steps_of(lapaz(), data.ranges.outplant, "")),
      measured("depth_low_water", "map.depth", plain_say("map.depth_about", data.plan->depth.datum),
               devon(), data.ranges.depth_low_water, label("map.m")),
      look("coverage", "style.coverage", label("style.coverage_about"),
           steps_of(kGreys, {0.0, 1.0}, "")),
      closed(),
      reasons(data)};
  if (!data.maps.confidence.empty()) {
    looks.push_back(look("confidence", "map.confidence", label("map.confidence_about"),
                         steps_of(imola(), {0.0, 1.0}, "")));
  }
  if (data.maps.waves != nullptr) {
    looks.push_back(measured("waves", "map.waves", label("map.waves_about"), davos(),
                             data.ranges.wave_50y_m, label("map.m")));
  }
  if (!data.maps.depth_source.empty()) {
    looks.push_back(depth_sources(data));
  }
  return looks;
}

}  // namespace tidelot::page
