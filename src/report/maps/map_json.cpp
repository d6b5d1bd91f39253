// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "report/maps/map_view.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason.hpp"
#include "tidelot/criteria/reason_codes.hpp"

namespace tidelot::page {
namespace {

using Json = nlohmann::ordered_json;

Json unit_entry(const MapUnit& unit) {
  return {{"name", unit.name}, {"factor", unit.factor}, {"decimals", unit.decimals}};
}

/// Colours of every code, and the codes that bear a texture with its ink.
void add_looks(const CodedMap& map, Json& entry) {
  std::string base;
  Json textured = Json::array();
  for (std::size_t each = 0; each < map.styles.size(); ++each) {
    const Style& style = map.styles[each];
    base += hex(style.base).substr(1);
    if (style.texture != 0) {
      textured.push_back({each, style.texture, hex(style.ink).substr(1)});
    }
  }
  entry["base"] = base;
  entry["textured"] = textured;
  entry["clear"] = map.styles[code::kOutside].clear;
}

/// Numbers that tell the page how to read and paint a map's codes.
Json map_entry(const CodedMap& map, bool painted, const std::string& png) {
  Json entry{{"title", map.button},    {"low", map.low},         {"high", map.high},
             {"special", map.special}, {"classes", map.classes}, {"units", Json::array()}};
  for (const MapUnit& unit : map.units) {
    entry["units"].push_back(unit_entry(unit));
  }
  if (painted) {
    add_looks(map, entry);
  }
  entry["png"] = png;
  return entry;
}

/// The bits of a set of rules, as the places of their names.
Json bits_of(std::uint32_t set) {
  Json bits = Json::array();
  for (int bit = 0; bit < 32; ++bit) {
    if ((set >> bit & 1U) != 0) {
      bits.push_back(bit);
    }
  }
  return bits;
}

/// A rule in full: its setback, and where it stands written.
std::string rule_words(const ClosedPlan& rule, Units units) {
  const std::string around =
      rule.setback_m > 0.0
          ? plain_say("map.with_setback", rule.name, in_line(distance(rule.setback_m), units))
          : rule.name;
  return plain_say("map.rule_source", around,
                   rule.rule.empty() ? label("words.no_rule_given") : rule.rule);
}

/// What closes a place, by its bit in maps/closed.tif.
Json rule_texts(const Plan& plan) {
  Json texts = Json::array();
  for (const std::string& name : closed_bit_names(plan)) {
    texts.push_back(translated(name));
  }
  for (std::size_t i = 0; i < plan.closed.size(); ++i) {
    texts[closed_bit::kFirstRule + i] = rule_words(plan.closed[i], plan.report.units);
  }
  return texts;
}

Json texture_tiles() {
  Json tiles = Json::array();
  for (int texture = 0; texture < kTextures; ++texture) {
    Json rows = Json::array();
    for (const std::uint8_t row : texture_rows(texture)) {
      rows.push_back(fmt::format("{:02x}", row));
    }
    tiles.push_back(rows);
  }
  return tiles;
}

/// Codes of reasons that say that something is not known.
Json unknown_codes(std::size_t codes) {
  Json unknown = Json::array();
  for (std::size_t each = 0; each < codes; ++each) {
    if (reason::says_unknown(each)) {
      unknown.push_back(each);
    }
  }
  return unknown;
}

Json reason_texts(std::span<const std::string> names) {
  Json texts = Json::array();
  for (const std::string& name : names) {
    texts.push_back(translated(name));
  }
  return texts;
}

Json month_names() {
  Json names = Json::array();
  for (int month = 0; month < kMonths; ++month) {
    names.push_back(label(fmt::format("months.m{:02d}", month + 1)));
  }
  return names;
}

}  // namespace

std::string map_json(const MapView& view, const PageMaps& maps) {
  const ReportData& data = *view.data;
  const Sampling& sampling = maps.sampling;
  Json all{{"cols", sampling.cols},
           {"rows", sampling.rows},
           {"first", code::kFirstValue},
           {"sampled", sampling.size() != data.grid->size()},
           {"unknown", unknown_codes(data.reason_names.size())},
           {"textures", texture_tiles()},
           {"labels", labels_of("script.")},
           {"months", month_names()},
           {"reasons", reason_texts(data.reason_names)},
           {"rules", rule_texts(*data.plan)}};
  for (const LonLat& corner : data.grid_corners) {
    all["corners"].push_back({corner.lon, corner.lat});
  }
  for (std::size_t i = 0; i < maps.shown.size(); ++i) {
    const CodedMap& map = maps.shown[i];
    all["order"].push_back(map.key);
    all["maps"][map.key] = map_entry(map, true, maps.shown_png[i]);
  }
  for (std::size_t i = 0; i < maps.read_out.size(); ++i) {
    const CodedMap& map = maps.read_out[i];
    all["maps"][map.key] = map_entry(map, false, maps.read_out_png[i]);
    for (const std::uint32_t set : map.sets) {
      all["maps"][map.key]["sets"].push_back(bits_of(set));
    }
  }
  return all.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace tidelot::page
