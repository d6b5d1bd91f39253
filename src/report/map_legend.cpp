// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "report/html.hpp"
#include "report/map_view.hpp"
#include "report/site_figures.hpp"
#include "report/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

constexpr int kTicks = 4;
constexpr int kRampWidth = 256;
constexpr int kRampHeight = 12;

/// What stands under the ramp: one value where there is only one, and never one twice.
std::vector<double> ticks_of(const CodedMap& map) {
  std::vector<double> ticks;
  for (int i = 0; i <= kTicks; ++i) {
    const double value = map.low + (map.high - map.low) * i / kTicks;
    if (ticks.empty() || fixed(value, map.decimals) != fixed(ticks.back(), map.decimals)) {
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

std::string ramp(const CodedMap& map, MapWriter& pictures) {
  std::string ticks;
  for (const double value : ticks_of(map)) {
    ticks += element("span", fixed(value, map.decimals));
  }
  return fmt::format("<img class=\"ramp\" alt=\"from {} to {} {}\" src=\"{}\">",
                     fixed(map.low, map.decimals), fixed(map.high, map.decimals), text(map.unit),
                     ramp_url(map, pictures)) +
         element("div class=\"ticks\"", ticks) +
         (map.unit.empty() ? "" : element("p class=\"unit\"", text(map.unit)));
}

std::string entry(const std::string& swatch, const std::string& label) {
  return element("li", swatch + element("span", label));
}

std::string rule_label(const ClosedPlan& rule) {
  const std::string kept =
      rule.setback_m > 0.0 ? fmt::format(", {} m setback not drawn", shortest(rule.setback_m)) : "";
  return text(rule.name) + " (" + (rule.flags() ? "caution, not closed" : effect_words(rule)) +
         ")" + kept;
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
  std::string items = entry(fmt::format(kSiteSwatch, "site"), "site, with its rank");
  if (!view.data->sites->apart.empty()) {
    items += entry(fmt::format(kSiteSwatch, "site apart"), "site listed apart");
  }
  for (std::size_t rule = 0; rule < view.data->closed.size(); ++rule) {
    items += entry(hatch_swatch(view, rule), rule_label(view.data->closed[rule].plan));
  }
  return element("h3", "On every map") + element("ul class=\"key\"", items);
}

}  // namespace tidelot::page
