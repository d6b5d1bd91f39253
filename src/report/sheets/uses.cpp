// SPDX-License-Identifier: Apache-2.0
// Sheets: uses of the water, and habitat with water class. Both show the plan's rules as shapes.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "report/sheets/ground.hpp"
#include "report/sheets/hatches.hpp"
#include "report/sheets/sheet.hpp"
#include "report/site_figures.hpp"
#include "report/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<std::string_view, 4> kLayers{"closed", "near", "depth", "land"};

constexpr std::size_t kMostTold = 10;

/// Words of the trade that make a rule one of habitat or water class.
constexpr std::array<std::string_view, 24> kHabitatWords{
    "eelgrass", "seagrass",   "grass bed",     "kelp bed",   "habitat",  "spawn",
    "nursery",  "reef",       "marsh",         "colony",     "haul-out", "haulout",
    "bird",     "seal",       "shellfish bed", "growing",    "outfall",  "dilution",
    "class",    "prohibited", "approved",      "restricted", "stream",   "protected"};

bool says_habitat(std::string_view name) {
  const std::string small = lower_ascii(name);
  return std::any_of(kHabitatWords.begin(), kHabitatWords.end(),
                     [&](std::string_view word) { return small.find(word) != std::string::npos; });
}

MapSheet sheet_of_rule(MapSheet given, std::string_view name) {
  return given != MapSheet::automatic ? given
         : says_habitat(name)         ? MapSheet::habitat
                                      : MapSheet::uses;
}

/// One rule or test, as it is drawn and told.
struct Shown {
  std::string key;  ///< "a"
  std::string name;
  std::span<const Feature> features;
  std::string what;     ///< markup
  double near_m = 0.0;  ///< of a [[near]] test: the ring round the best site
};

std::string statuses(std::span<const Feature> features) {
  std::set<std::string> found;
  for (const Feature& each : features) {
    if (!each.status.empty()) {
      found.insert(each.status);
    }
  }
  std::string all;
  for (const std::string& each : found) {
    all += (all.empty() ? " Status: " : ", ") + page::text(each);
  }
  return all.empty() ? "" : all + ".";
}

std::string from_site(const Site* site, int rule, page::Units units) {
  if (site == nullptr) {
    return "";
  }
  for (const RuleDistance& each : site->rules) {
    if (each.rule == rule) {
      return fmt::format(
          " Site {}: {}.", page::text(site->name),
          each.distance_m > 0.0
              ? page::text(page::in_line(page::distance(each.distance_m), units)) + " from its edge"
              : std::string("inside"));
    }
  }
  return "";
}

/// Of many rules there is no room for their words.
bool is_brief(const ReportData& data) { return data.closed.size() + data.near.size() > kMostTold; }

std::string told(const std::string& rule, const ReportData& data) {
  return is_brief(data) ? ""
                        : fmt::format(" Rule: {}.",
                                      rule.empty() ? "no rule given" : page::text(cut(rule, 140)));
}

std::string rule_words(const ClosedLayer& layer, int rule, const ReportData& data) {
  const page::Units units = data.plan->report.units;
  const Site* first = data.sites->ranked.empty() ? nullptr : &data.sites->ranked.front();
  std::string setback =
      layer.plan.setback_m > 0.0
          ? "; setback " + page::in_line(page::length(layer.plan.setback_m), units)
          : "";
  return fmt::format("{}{}.{}{}{}", page::text(page::effect_words(layer.plan)), page::text(setback),
                     told(layer.plan.rule, data), statuses(layer.features),
                     from_site(first, rule, units));
}

std::string near_words(const NearLayer& layer, const ReportData& data) {
  return fmt::format(
      "{} at most within {}{}. Rule: {}.", layer.plan.count,
      page::text(page::in_line(page::length(layer.plan.distance_m), data.plan->report.units)),
      layer.plan.closes ? "" : ", else a caution", told(layer.plan.rule, data));
}

std::vector<Shown> shown_on(MapSheet sheet, const ReportData& data) {
  std::vector<Shown> out;
  const auto key = [&] { return std::string(1, static_cast<char>('a' + out.size() % 26)); };
  for (std::size_t i = 0; i < data.closed.size(); ++i) {
    const ClosedLayer& layer = data.closed[i];
    if (sheet_of_rule(layer.plan.sheet, layer.plan.name) == sheet) {
      out.push_back(
          {key(), layer.plan.name, layer.features, rule_words(layer, static_cast<int>(i), data)});
    }
  }
  for (const NearLayer& layer : data.near) {
    if (sheet_of_rule(layer.plan.sheet, layer.plan.name) == sheet) {
      out.push_back(
          {key(), layer.plan.name, layer.features, near_words(layer, data), layer.plan.distance_m});
    }
  }
  return out;
}

/// All that lies within a distance of a site's edge: its box with round corners.
std::string ring(const Frame& frame, const Site& site, double ground_m, double grid_scale) {
  const double r = ground_m * grid_scale;
  std::string d;
  for (std::size_t i = 0; i < 4; ++i) {
    const XY a = site.corners_xy[i];
    const XY b = site.corners_xy[(i + 1) % 4];
    const double length = std::max(1e-9, std::hypot(b.x - a.x, b.y - a.y));
    // Corners run clockwise, so outside lies to the left.
    const XY out{-(b.y - a.y) / length * r, (b.x - a.x) / length * r};
    const Spot from = frame.spot({a.x + out.x, a.y + out.y});
    const Spot to = frame.spot({b.x + out.x, b.y + out.y});
    const std::string arc = fmt::format("A{0} {0} 0 0 1 ", mm(r * frame.mm_per_m));
    d += fmt::format("{}{} {}L{} {}", d.empty() ? "M" : arc, mm(from.x), mm(from.y), mm(to.x),
                     mm(to.y));
  }
  const XY a = site.corners_xy[0];
  const XY b = site.corners_xy[1];
  const double length = std::max(1e-9, std::hypot(b.x - a.x, b.y - a.y));
  const Spot start = frame.spot({a.x - (b.y - a.y) / length * r, a.y + (b.x - a.x) / length * r});
  return path(
      d + fmt::format("A{0} {0} 0 0 1 {1} {2}Z", mm(r * frame.mm_per_m), mm(start.x), mm(start.y)),
      {0.3, "1.5 1.5"});
}

std::string map_of(const Frame& frame, std::string_view id, std::string_view label,
                   const std::vector<Shown>& shown, const ReportData& data) {
  Labels labels(frame.width, frame.height);
  labels.keep({0.0, 0.0}, frame.width, 3.5);
  labels.keep({0.0, 0.0}, 12.0, frame.height);
  std::string shapes;
  for (std::size_t i = 0; i < shown.size(); ++i) {
    for (const Feature& feature : shown[i].features) {
      shapes += shape(frame, feature.shape, class_fill(i), {0.35, class_dashes(i)});
    }
    if (shown[i].near_m > 0.0 && !data.sites->ranked.empty()) {
      shapes += ring(frame, data.sites->ranked.front(), shown[i].near_m, data.grid_scale);
    }
  }
  std::string names = site_marks(frame, data, labels);
  for (const Shown& each : shown) {
    std::size_t named = 0;
    for (const Feature& feature : each.features) {
      const auto spot = named < 6 ? label_spot(frame, feature.shape) : std::nullopt;
      if (spot) {
        names += "<g class=\"bold\">" + labels.near(*spot, each.key, 3.4, 0.4) + "</g>";
        ++named;
      }
    }
  }
  return map_drawing(frame, data, id, label, land_and_unknown(frame, data) + shapes, names);
}

std::string legend_of(const std::vector<Shown>& shown) {
  std::string rows;
  for (std::size_t i = 0; i < shown.size(); ++i) {
    rows += legend_row(swatch(class_fill(i), {0.35, class_dashes(i)}),
                       fmt::format("<b>{} {}</b>: {}", shown[i].key,
                                   page::text(cut(shown[i].name, 60)), shown[i].what));
  }
  return legend(rows + ground_legend());
}

Sheet sheet_for(MapSheet kind, std::string title, std::string_view id, std::string_view write_in,
                const ReportData& data) {
  const std::vector<Shown> shown = shown_on(kind, data);
  if (shown.empty()) {
    return no_sheet(std::move(title), "the plan names no [[closed]] or [[near]] layer for it");
  }
  Sheet out = sheet_of(title, data, kLayers);
  const Frame frame = frame_of(extent_of(*data.grid), data.grid_scale, kBodyWidth - 1.0, 140.0);
  out.beside = frame.width < kNarrow;
  out.drawings = map_of(frame, id, title, shown, data);
  const bool rings =
      std::any_of(shown.begin(), shown.end(), [](const Shown& each) { return each.near_m > 0.0; });
  out.notes =
      legend_of(shown) +
      (rings ? page::element("p", "Dashed ring: the distance asked for, round the best site.")
             : "") +
      page::element("p", std::string(write_in) + room(true));
  return out;
}

}  // namespace

Sheet uses(const ReportData& data) {
  return sheet_for(MapSheet::uses, "Uses of the water", "uses",
                   "Only layers of the plan are shown. Ask and write in: channels, anchorages, "
                   "storm anchorage, moorings, docks, ramps, ferries, racing, fishing, leases, "
                   "beaches, shore parcels. ",
                   data);
}

Sheet habitat(const ReportData& data) {
  return sheet_for(
      MapSheet::habitat, "Habitat and water class", "habitat",
      "Only layers of the plan are shown: where nothing is drawn nobody has cleared "
      "the water. Ask and write in, with the date of each survey: eelgrass, "
      "shellfish, colonies, haul-outs, stream mouths, class and its status, outfalls. ",
      data);
}

}  // namespace tidelot::sheet
