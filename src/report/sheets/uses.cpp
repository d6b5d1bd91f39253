// SPDX-License-Identifier: Apache-2.0
// Sheets: uses of the water, and habitat with water class. Both show the plan's rules as shapes.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <set>

#include "report/sheets/ground.hpp"
#include "report/sheets/hatches.hpp"
#include "report/sheets/sheet.hpp"
#include "report/site/site_figures.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<std::string_view, 4> kLayers{"closed", "near", "depth", "land"};

// How the sheet is set, mm and points.
constexpr double kMapHeight = 140.0;  ///< at most
constexpr double kLeastMap = 60.0;
constexpr double kStep = 10.0;
constexpr double kGap = 4.0;
constexpr double kGround = 16.0;             ///< legend of the ground
constexpr double kSwatch = 13.0;             ///< with its gap
constexpr double kTwoColumns = 88.0;         ///< one of two columns below the map
constexpr double kSize = 7.4, kSmall = 6.4;  ///< points
constexpr std::size_t kBriefLetters = 34;    ///< of a name, where the words are cut

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
    all += (all.empty() ? "" : ", ") + page::text(each);
  }
  return all.empty() ? "" : " " + page::say("uses.status", all);
}

std::string from_site(const Site* site, int rule, page::Units units) {
  if (site == nullptr) {
    return "";
  }
  for (const RuleDistance& each : site->rules) {
    if (each.rule == rule) {
      return " " +
             (each.distance_m > 0.0
                  ? page::say("uses.from_its_edge", page::text(site->name),
                              page::text(page::in_line(page::distance(each.distance_m), units)))
                  : page::say("uses.inside", page::text(site->name)));
    }
  }
  return "";
}

/// brief: of many rules there is no room for their words.
std::string told(const std::string& rule, bool brief) {
  return brief ? ""
               : " " + page::say("uses.rule", rule.empty() ? page::say("words.no_rule_given")
                                                           : page::text(cut(rule, 140)));
}

std::string rule_words(const ClosedLayer& layer, int rule, const ReportData& data, bool brief) {
  const page::Units units = data.plan->report.units;
  const Site* first = data.sites->ranked.empty() ? nullptr : &data.sites->ranked.front();
  const std::string effect = page::text(page::effect_words(layer.plan));
  const std::string effect_and_setback =
      layer.plan.setback_m > 0.0
          ? page::say("uses.setback", effect,
                      page::text(page::in_line(page::length(layer.plan.setback_m), units)))
          : effect;
  return effect_and_setback + "." + told(layer.plan.rule, brief) + statuses(layer.features) +
         from_site(first, rule, units);
}

std::string near_words(const NearLayer& layer, const ReportData& data, bool brief) {
  return page::say(layer.plan.closes ? "uses.at_most_within" : "uses.at_most_else_caution",
                   layer.plan.count,
                   page::text(page::in_line(page::length(layer.plan.distance_m),
                                            data.plan->report.units))) +
         told(layer.plan.rule, brief);
}

std::vector<Shown> shown_on(MapSheet sheet, const ReportData& data, bool brief) {
  std::vector<Shown> out;
  const auto named = [&](const std::string& name) { return cut(name, brief ? kBriefLetters : 60); };
  const auto key = [&] { return std::string(1, static_cast<char>('a' + out.size() % 26)); };
  for (std::size_t i = 0; i < data.closed.size(); ++i) {
    const ClosedLayer& layer = data.closed[i];
    if (sheet_of_rule(layer.plan.sheet, layer.plan.name) == sheet) {
      out.push_back({key(), named(layer.plan.name), layer.features,
                     rule_words(layer, static_cast<int>(i), data, brief)});
    }
  }
  for (const NearLayer& layer : data.near) {
    if (sheet_of_rule(layer.plan.sheet, layer.plan.name) == sheet) {
      out.push_back({key(), named(layer.plan.name), layer.features, near_words(layer, data, brief),
                     layer.plan.distance_m});
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

std::string words_of(const Shown& each) {
  return fmt::format("<b>{} {}</b>: {}", each.key, page::text(each.name), each.what);
}

std::string legend_of(const std::vector<Shown>& shown, std::string_view kind) {
  std::string rows;
  for (std::size_t i = 0; i < shown.size(); ++i) {
    rows += legend_row(swatch(class_fill(i), {0.35, class_dashes(i)}), words_of(shown[i]));
  }
  return kind.empty() ? legend(rows + ground_legend())
                      : legend(rows, kind) + legend(ground_legend());
}

/// How high the words stand in one column, or in two.
double height_of(const std::vector<Shown>& shown, double width, double points, int columns) {
  double height = 0.0;
  double row = 0.0;
  for (std::size_t i = 0; i < shown.size(); ++i) {
    row = std::max(row, set_height(words_of(shown[i]), width, points) + 1.0);
    if ((i + 1) % static_cast<std::size_t>(columns) == 0 || i + 1 == shown.size()) {
      height += std::max(row, 6.5);  // a swatch and its gap
      row = 0.0;
    }
  }
  return height;
}

/// How the words are set round the map.
struct Setting {
  std::vector<Shown> shown;
  Frame frame;
  bool beside = false;    ///< run on beside the map and below it
  std::string_view kind;  ///< of the legend
};

/// The words beside a narrow map or below a wide one, the map as high as they leave; none where
/// they do not leave enough.
std::optional<Setting> fitting(const std::vector<Shown>& shown, const std::string& note,
                               const ReportData& data) {
  for (double high = kMapHeight; high >= kLeastMap; high -= kStep) {
    const Frame frame = frame_of(extent_of(*data.grid), data.grid_scale, kBodyWidth - 1.0, high);
    const double column = kBodyWidth - frame.width - kGap;
    const bool narrow = frame.width < kNarrow;
    if (narrow && high == kMapHeight &&
        height_of(shown, column - kSwatch, kSize, 1) < frame.height + kFurniture - kGround) {
      return Setting{shown, frame, true, ""};
    }
    const double words =
        narrow ? height_of(shown, column - kSwatch, kSmall, 1) + set_height(note, column, kSize)
               : frame.height + kFurniture + height_of(shown, kTwoColumns - kSwatch, kSmall, 2) +
                     set_height(note, kBodyWidth, kSize);
    if (words + kGround < kBodyHeight) {
      return Setting{shown, frame, false, narrow ? "one dense" : "two dense"};
    }
  }
  return std::nullopt;
}

/// The words in full, else cut.
Setting setting_of(MapSheet kind, const std::string& note, const ReportData& data) {
  if (auto full = fitting(shown_on(kind, data, false), note, data)) {
    return *full;
  }
  const std::vector<Shown> brief = shown_on(kind, data, true);
  return fitting(brief, note, data)
      .value_or(Setting{
          brief, frame_of(extent_of(*data.grid), data.grid_scale, kBodyWidth - 1.0, kLeastMap),
          false, "two dense"});
}

Sheet sheet_for(MapSheet kind, std::string_view title, std::string_view id,
                std::string_view write_in, const ReportData& data) {
  const Setting set = setting_of(kind, page::label(write_in), data);
  const std::vector<Shown>& shown = set.shown;
  if (shown.empty()) {
    return no_sheet({title}, "uses.no_layer");
  }
  Sheet out = sheet_of({title}, data, kLayers);
  out.beside = set.beside;
  out.drawings = map_of(set.frame, id, page::label(title), shown, data);
  const bool rings =
      std::any_of(shown.begin(), shown.end(), [](const Shown& each) { return each.near_m > 0.0; });
  out.notes = legend_of(shown, set.kind) +
              (rings ? page::element("p", page::say("uses.dashed_ring")) : "") +
              page::element("p", page::say(write_in) + " " + room(true));
  return out;
}

}  // namespace

Sheet uses(const ReportData& data) {
  return sheet_for(MapSheet::uses, "uses.title", "uses", "uses.write_in", data);
}

Sheet habitat(const ReportData& data) {
  return sheet_for(MapSheet::habitat, "uses.habitat", "habitat", "uses.write_in_habitat", data);
}

}  // namespace tidelot::sheet
