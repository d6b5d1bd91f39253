// SPDX-License-Identifier: Apache-2.0
// [depth] and [[depth.sources]]: how deep.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>

#include "plan/read_tables.hpp"
#include "plan/unit_check.hpp"

namespace tidelot {
namespace {

/// Names of low-water datums in lower case.
constexpr std::array<std::string_view, 8> kLowWaterDatums{"mllw",
                                                          "mlw",
                                                          "lat",
                                                          "chart datum",
                                                          "lowest astronomical tide",
                                                          "mean lower low water",
                                                          "mean low water",
                                                          "low water"};

/// In lower case, blanks at the ends dropped and each run of blanks made one.
std::string plain_words(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\t';
    if (!blank) {
      out += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    } else if (!out.empty() && out.back() != ' ') {
      out += ' ';
    }
  }
  if (out.ends_with(' ')) {
    out.pop_back();
  }
  return out;
}

}  // namespace

bool is_low_water_datum(std::string_view datum) {
  return std::find(kLowWaterDatums.begin(), kLowWaterDatums.end(), plain_words(datum)) !=
         kLowWaterDatums.end();
}

namespace planfile {
namespace {

/// maps/depth_source.tif counts them in a byte; more than a few are surely a slip.
constexpr std::size_t kMaxSources = 32;

FileRef depth_file(Section& table) {
  FileRef file = table.file("file");
  file.variable = table.text("variable");
  file.layer = table.text("layer");
  file.field = table.text("field");
  file.crs = table.text("crs");
  return file;
}

std::optional<Positive> maybe_positive(Section& table) {
  if (!table.given("positive")) {
    return std::nullopt;
  }
  return table.text("positive") == "up" ? Positive::up : Positive::down;
}

std::variant<double, FileRef> low_water_of(Section& table) {
  if (table.given("low_water_m") && table.table()->get_as<std::string>("low_water_m") != nullptr) {
    return table.file("low_water_m");
  }
  return table.number("low_water_m");
}

void need_low_water(const Section& table, const std::string& datum) {
  if (!is_low_water_datum(datum)) {
    table.fail("low_water_m",
               fmt::format("is missing; datum \"{}\" is not a low-water one, so say how far low "
                           "water lies above it in metres (negative where below), or name a raster",
                           datum));
  }
}

/// What [depth] says for all its sources; with a file of its own it must say all of it.
struct Common {
  std::optional<Positive> positive;
  bool low_water = false;  ///< given
};

/// A source with another zero says where low water lies above it.
void read_datum(Section& table, const DepthPlan& depth, const Common& common, DepthSource& out) {
  const bool own_datum = table.given("datum");
  out.datum = own_datum ? table.text("datum") : depth.datum;
  out.low_water = depth.low_water;
  if (table.given("low_water_m")) {
    out.low_water = low_water_of(table);
  } else if (own_datum && plain_words(out.datum) != plain_words(depth.datum)) {
    table.fail("low_water_m",
               fmt::format("is missing; its datum \"{}\" is not that of [depth], \"{}\": depths "
                           "from two zeros can't be mixed without saying how far low water lies "
                           "above each (in metres, negative where below)",
                           out.datum, depth.datum));
  } else if (!common.low_water) {
    need_low_water(table, out.datum);
  }
}

DepthSource read_source(Section& table, const DepthPlan& depth, const Common& common) {
  DepthSource out;
  out.key = table.path();
  out.name = table.text("name");
  out.file = depth_file(table);
  const auto positive = maybe_positive(table);
  if (!positive && !common.positive) {
    table.fail("positive",
               "is missing; write \"down\" for depths or \"up\" for elevations, here "
               "or once in [depth]");
  }
  out.positive = positive.value_or(common.positive.value_or(Positive::down));
  out.unit = table.given("unit") ? checked_unit(table, Quantity::depth) : depth.unit;
  out.longest_edge_m = table.maybe_number("longest_edge_m");
  read_datum(table, depth, common, out);
  out.feather_m = table.number("feather_m");
  return out;
}

/// A datum of its own somewhere: then those who use [depth]'s need its low water said, too.
void check_mixed(const Section& table, const DepthPlan& depth, const Common& common) {
  const auto other = std::find_if(
      depth.several.begin(), depth.several.end(),
      [&](const DepthSource& s) { return plain_words(s.datum) != plain_words(depth.datum); });
  const toml::array& tables = *table.table()->get_as<toml::array>("sources");
  for (std::size_t i = 0; other != depth.several.end() && i < depth.several.size(); ++i) {
    const bool said = common.low_water || tables.get_as<toml::table>(i)->contains("low_water_m");
    if (!said) {
      table.fail(
          "low_water_m",
          fmt::format("is missing; \"{}\" and \"{}\" have different zeros (\"{}\", "
                      "\"{}\"), so say for each how far low water lies above its zero",
                      depth.several[i].name, other->name, depth.several[i].datum, other->datum));
    }
  }
}

void read_sources(Section& table, const Common& common, DepthPlan& depth) {
  const toml::array& tables = *table.table()->get_as<toml::array>("sources");
  for (std::size_t i = 0; i < tables.size(); ++i) {
    Section each(table.reading(), tables.get_as<toml::table>(i),
                 fmt::format("depth.sources[{}]", i));
    if (i >= kMaxSources) {
      each.fail("name", fmt::format("is source {}; a plan holds {} at most", i + 1, kMaxSources));
    }
    DepthSource source = read_source(each, depth, common);
    if (std::any_of(depth.several.begin(), depth.several.end(),
                    [&](const DepthSource& other) { return other.name == source.name; })) {
      each.fail("name", fmt::format("\"{}\" is taken by another source; give each its own name",
                                    source.name));
    }
    depth.several.push_back(std::move(source));
  }
  check_mixed(table, depth, common);
}

/// file and what belongs to it, or sources.
bool has_sources(const Section& depth) {
  const toml::array* tables =
      depth.given("sources") ? depth.table()->get_as<toml::array>("sources") : nullptr;
  const bool several = tables != nullptr && !tables->empty();
  if (!several && !depth.given("file")) {
    depth.fail("file", "is missing; add it, or one [[depth.sources]] or more");
  }
  for (const std::string_view key :
       {"file", "variable", "layer", "field", "crs", "longest_edge_m"}) {
    if (several && depth.given(key)) {
      depth.fail(key, "and [[depth.sources]] are both given; write it in one of the sources");
    }
  }
  if (!several && !depth.given("positive")) {
    depth.fail("positive", "is missing; add it");
  }
  return several;
}

}  // namespace

DepthPlan read_depth(Reading& reading) {
  Section depth(reading, "depth");
  const bool several = has_sources(depth);
  DepthPlan out;
  if (!several) {
    out.file = depth_file(depth);
  }
  const Common common{maybe_positive(depth), depth.given("low_water_m")};
  out.positive = common.positive.value_or(Positive::down);
  out.unit = checked_unit(depth, Quantity::depth);
  out.longest_edge_m = depth.maybe_number("longest_edge_m");
  out.datum = depth.text("datum");
  if (!several && !common.low_water) {
    need_low_water(depth, out.datum);
  }
  if (common.low_water || is_low_water_datum(out.datum)) {
    out.low_water = low_water_of(depth);
  }
  out.tidal_range_m = depth.number("tidal_range_m");
  out.lowest_tide_m = depth.number("lowest_tide_m");
  out.error_m = depth.number("error_m");
  if (several) {
    read_sources(depth, common, out);
  }
  return out;
}

}  // namespace planfile
}  // namespace tidelot
