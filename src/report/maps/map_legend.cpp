// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "report/maps/map_view.hpp"
#include "report/site/site_figures.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

constexpr int kTicks = 4;
constexpr int kRampWidth = 256;
constexpr int kRampHeight = 12;

std::string written(const MapUnit& unit, double value) {
  return fixed(value * unit.factor, unit.decimals);
}

/// What stands under the ramp: one value where there is only one, and never one twice.
std::vector<double> ticks_of(const CodedMap& map) {
  const MapUnit& unit = map.units.front();
  std::vector<double> ticks;
  for (int i = 0; i <= kTicks; ++i) {
    const double value = map.low + (map.high - map.low) * i / kTicks;
    if (ticks.empty() || written(unit, value) != written(unit, ticks.back())) {
      ticks.push_back(value);
    }
  }
  return ticks;
}

/// The ramp as a picture: backgrounds may stay away when a page is printed, pictures do not.
std::string ramp_url(const CodedMap& map, MapWriter& pictures) {
  std::vector<std::uint8_t> rgba;
  for (int y = 0; y < kRampHeight; ++y) {
    for (int x = 0; x < kRampWidth; ++x) {
      const Rgb colour = colour_at(map.ramp, x / (kRampWidth - 1.0));
      rgba.insert(rgba.end(), {colour.r, colour.g, colour.b, std::uint8_t{255}});
    }
  }
  return "data:image/png;base64," + base64(pictures.png(kRampWidth, kRampHeight, rgba));
}

std::string tick_row(const CodedMap& map, const MapUnit& unit) {
  std::string ticks;
  for (const double value : ticks_of(map)) {
    ticks += element("span", written(unit, value));
  }
  return element("div class=\"ticks\"", ticks) +
         (unit.name.empty() ? "" : element("p class=\"unit\"", text(unit.name)));
}

std::string ramp(const CodedMap& map, MapWriter& pictures) {
  const MapUnit& unit = map.units.front();
  std::string rows;
  for (const MapUnit& each : map.units) {
    rows += tick_row(map, each);
  }
  return fmt::format("<img class=\"ramp\" alt=\"{}\" src=\"{}\">",
                     text(plain_say("map.ramp", written(unit, map.low), written(unit, map.high),
                                    unit.name)),
                     ramp_url(map, pictures)) +
         rows;
}

std::string entry(const std::string& swatch, const std::string& label) {
  return element("li", swatch + element("span", label));
}

std::string rule_label(const ClosedPlan& rule, Units units) {
  const std::string effect =
      rule.flags() ? label("map.caution_only") : translated(effect_words(rule));
  return rule.setback_m > 0.0 ? say("map.rule_setback", text(rule.name), text(effect),
                                    in_line(distance(rule.setback_m), units))
                              : say("map.rule", text(rule.name), text(effect));
}

constexpr std::string_view kSiteSwatch =
    "<svg class=\"swatch sites\" viewBox=\"0 0 44 22\" aria-hidden=\"true\"><g class=\"{}\"><path "
    "class=\"casing\" d=\"M6 6H38V16H6Z\"/><path class=\"edge\" d=\"M6 6H38V16H6Z\"/></g></svg>";

}  // namespace

std::string legend(const CodedMap& map, MapWriter& pictures) {
  std::string items;
  for (const LegendEntry& each : map.entries) {
    items += entry(
        fmt::format("<img class=\"swatch\" alt=\"\" src=\"{}\">", swatch_url(each.style, pictures)),
        text(each.label));
  }
  return (map.classes ? "" : ramp(map, pictures)) + element("ul class=\"key\"", items) +
         element("p class=\"about\"", text(map.about));
}

std::string mark_legend(const MapView& view) {
  std::string items = entry(fmt::format(kSiteSwatch, "site"), say("map.site"));
  if (!view.data->sites->apart.empty()) {
    items += entry(fmt::format(kSiteSwatch, "site apart"), say("map.site_apart"));
  }
  for (std::size_t rule = 0; rule < view.data->closed.size(); ++rule) {
    items += entry(hatch_swatch(view, rule),
                   rule_label(view.data->closed[rule].plan, view.data->plan->report.units));
  }
  return element("h3", say("map.on_every_map")) + element("ul class=\"key\"", items);
}

}  // namespace tidelot::page
