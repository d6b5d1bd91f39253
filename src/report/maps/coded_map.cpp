// SPDX-License-Identifier: Apache-2.0
#include "report/maps/coded_map.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/maps/map_range.hpp"
#include "report/words/say.hpp"
#include "tidelot/core/calendar.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason_codes.hpp"

namespace tidelot::page {
namespace {

constexpr double kSteps = 255.0 - code::kFirstValue;

int picked(int sample, int samples, int cells) {
  return static_cast<int>((sample + 0.5) * cells / samples);
}

/// A unit in both systems; factor turns the metric one into the other.
struct UnitPair {
  std::string metric;
  std::string us;
  double factor = 1.0;
};

std::vector<MapUnit> units_of(const UnitPair& pair, ReportPlan::Units wanted) {
  std::vector<MapUnit> units;
  if (wanted != ReportPlan::Units::us) {
    units.push_back({pair.metric, 1.0});
  }
  if (wanted != ReportPlan::Units::metric) {
    units.push_back({pair.us, pair.factor});
  }
  return units;
}

/// To the nearest whole number, halves up; the value is not below 0. std::lround, which is a call
/// for every sample.
int rounded(double value) {
  const int whole = static_cast<int>(value);
  return whole + (value - whole >= 0.5 ? 1 : 0);
}

std::uint8_t value_code(const CodedMap& map, double value) {
  const double span = map.high - map.low;
  const double share = span > 0.0 ? std::clamp((value - map.low) / span, 0.0, 1.0) : 0.0;
  return static_cast<std::uint8_t>(code::kFirstValue + rounded(share * kSteps));
}

/// Outside, land or not known, by the reason; kFirstValue when there is a value.
std::uint8_t state_code(std::uint8_t why, float value) {
  if (why == reason::kOutside) {
    return code::kOutside;
  }
  if (why == reason::kLand) {
    return code::kLand;
  }
  return std::isnan(value) ? code::kNotKnown : code::kFirstValue;
}

/// No cell of a map is special.
constexpr auto kNothingSpecial = [](std::size_t) { return false; };

/// value(cell), NaN where it is not known.
template <typename Value, typename IsSpecial>
void set_codes(CodedMap& map, const ReportData& data, const Sampling& sampling, const Value& value,
               const IsSpecial& special) {
  map.codes.resize(sampling.size());
  sampling.each([&](std::size_t sample, std::size_t cell) {
    const float here = value(cell);
    std::uint8_t each = state_code(data.maps.reason[cell], here);
    if (each >= code::kNotKnown && special(cell)) {
      each = code::kSpecial;
    } else if (each == code::kFirstValue) {
      each = value_code(map, here);
    }
    map.codes[sample] = each;
  });
}

void set_styles(CodedMap& map, Ramp ramp, const Style& special) {
  map.ramp = ramp;
  map.styles[code::kOutside].clear = true;
  map.styles[code::kLand] = land_style();
  map.styles[code::kNotKnown] = not_known_style();
  map.styles[code::kSpecial] = special;
  for (int each = code::kFirstValue; each < 256; ++each) {
    map.styles[static_cast<std::size_t>(each)].base =
        colour_at(ramp, (each - code::kFirstValue) / kSteps);
  }
  if (std::find(map.codes.begin(), map.codes.end(), code::kSpecial) != map.codes.end()) {
    map.entries.push_back({map.special, special});
  }
  map.entries.push_back({label("map.not_known"), not_known_style()});
  map.entries.push_back({label("map.land"), land_style()});
}

/// The value of a cell; NaN where there is no such map.
auto value_in(std::span<const float> values) {
  return [values](std::size_t cell) { return values.empty() ? std::nanf("") : values[cell]; };
}

auto is_closed(const ReportData& data) {
  return [&data](std::size_t cell) {
    const std::uint32_t bits = data.maps.closed[cell];
    return bits != 0 && bits != kClosedNotWater && bits != kClosedUnknown;
  };
}

auto has_no_season(const ReportData& data) {
  return [&data](std::size_t cell) {
    const std::uint8_t why = data.maps.reason[cell];
    return !std::isnan(data.maps.yield_kg_per_m[cell]) && std::isnan(data.maps.outplant[cell]) &&
           why != reason::kOutside && why != reason::kLand;
  };
}

CodedMap named_map(std::string key) {
  CodedMap map;
  map.button = label("map." + key);
  map.key = std::move(key);
  return map;
}

CodedMap suitability_map(const ReportData& data, const Sampling& sampling) {
  CodedMap map = named_map("suitability");
  map.about = label(data.plan->combine == Combine::minimum ? "map.suitability_lowest"
                                                           : "map.suitability_mean");
  map.units = {{"", 1.0, 2}};
  map.special = label("map.closed_water");
  set_codes(map, data, sampling, value_in(data.maps.suitability), is_closed(data));
  set_styles(map, batlow(), closed_style());
  return map;
}

/// A map whose range is round and taken from the values.
CodedMap measured_map(CodedMap map, const UnitPair& units, const ReportData& data,
                      const Sampling& sampling, std::span<const float> values, MapRange of_values,
                      Ramp ramp) {
  map.units = units_of(units, data.plan->report.units);
  const MapRange range = round_range(of_values, map.units.front().factor);
  map.low = range.low;
  map.high = range.high;
  for (MapUnit& unit : map.units) {
    unit.decimals = decimals_for((range.high - range.low) * unit.factor);
  }
  set_codes(map, data, sampling, value_in(values), kNothingSpecial);
  set_styles(map, ramp, {});
  return map;
}

constexpr double kFootM = 0.3048;
constexpr double kPoundKg = 0.45359237;

CodedMap yield_map(const ReportData& data, const Sampling& sampling) {
  CodedMap map = named_map("yield");
  map.about = label("map.yield_about");
  return measured_map(std::move(map),
                      {label("map.kg_per_m"), label("map.lb_per_ft"), kFootM / kPoundKg}, data,
                      sampling, data.maps.yield_kg_per_m, data.ranges.yield_kg_per_m, bamako());
}

CodedMap nitrogen_map(const ReportData& data, const Sampling& sampling) {
  CodedMap map = named_map("nitrogen");
  map.about = label("map.nitrogen_about");
  return measured_map(
      std::move(map),
      {label("map.g_per_m"), label("map.lb_per_100_ft"), 100.0 * kFootM / (1000.0 * kPoundKg)},
      data, sampling, data.maps.nitrogen_g_per_m, data.ranges.nitrogen_g_per_m, acton());
}

UnitPair metres_and_feet() { return {label("map.m"), label("map.ft"), 1.0 / kFootM}; }

CodedMap depth_map(const ReportData& data, const Sampling& sampling) {
  CodedMap map = named_map("depth");
  map.about = plain_say("map.depth_about", data.plan->depth.datum);
  return measured_map(std::move(map), metres_and_feet(), data, sampling, data.maps.depth_low_water,
                      data.ranges.depth_low_water, devon());
}

CodedMap wave_map(const ReportData& data, const Sampling& sampling) {
  CodedMap map = named_map("waves");
  map.about = label("map.waves_about");
  return measured_map(std::move(map), metres_and_feet(), data, sampling,
                      data.maps.waves->height_50y_m, data.ranges.wave_50y_m, davos());
}

CodedMap confidence_map(const ReportData& data, const Sampling& sampling) {
  CodedMap map = named_map("confidence");
  map.about = label("map.confidence_about");
  map.units = {{"", 1.0, 2}};
  set_codes(map, data, sampling, value_in(data.maps.confidence), kNothingSpecial);
  set_styles(map, imola(), {});
  return map;
}

/// Both days counted; a season that ends before it begins runs over the new year.
float days_in_water(float last, float first) {
  const float days = last - first + 1.0F;
  return days > 0.0F ? days : days + static_cast<float>(kDaysPerYear);
}

CodedMap season_map(const ReportData& data, const Sampling& sampling) {
  CodedMap map = named_map("season");
  map.about = label("map.season_about");
  map.units = {{label("map.days"), 1.0, 0}};
  map.special = label("map.no_season");
  const auto days = [last = value_in(data.maps.last_haul), first = value_in(data.maps.outplant)](
                        std::size_t cell) { return days_in_water(last(cell), first(cell)); };
  RangeSoFar range;
  sampling.each([&](std::size_t, std::size_t cell) { range.add(days(cell)); });
  map.low = std::floor(range.range().low);
  map.high = std::ceil(range.range().high);
  set_codes(map, data, sampling, days, has_no_season(data));
  set_styles(map, lapaz(), {kPaper, 5, {90, 96, 104}});
  return map;
}

CodedMap day_map(std::string key, const ReportData& data, const Sampling& sampling,
                 std::span<const float> values, MapRange range) {
  CodedMap map;
  map.key = std::move(key);
  map.low = range.low;
  map.high = std::max(range.high, range.low + kSteps);  // whole days stay whole
  set_codes(map, data, sampling, value_in(values), kNothingSpecial);
  return map;
}

CodedMap outplant_map(const ReportData& data, const Sampling& sampling) {
  return day_map("outplant", data, sampling, data.maps.outplant, data.ranges.outplant);
}

CodedMap last_haul_map(const ReportData& data, const Sampling& sampling) {
  return day_map("last_haul", data, sampling, data.maps.last_haul, data.ranges.last_haul);
}

using Make = CodedMap (*)(const ReportData&, const Sampling&);

/// The maps in their order, whoever makes which.
std::vector<CodedMap> made(std::span<const Make> makers, const ReportData& data,
                           const Sampling& sampling, const EachOf& each) {
  std::vector<CodedMap> maps(makers.size());
  const Labels& labels = spoken_labels();
  each(makers.size(), [&](std::size_t i) {
    const Speaking speaking(labels);
    maps[i] = makers[i](data, sampling);
  });
  return maps;
}

}  // namespace

Style land_style() { return {kLand, 0, kInk}; }
Style not_known_style() { return {kPaper, 1, {70, 76, 84}}; }
Style closed_style() { return {kClosed, 5, {120, 116, 104}}; }

Sampling sampling_of(const Grid& grid, int most) {
  Sampling sampling;
  const double shrink =
      std::max({1.0, static_cast<double>(grid.cols) / most, static_cast<double>(grid.rows) / most});
  sampling.cols = std::max(1, static_cast<int>(std::lround(grid.cols / shrink)));
  sampling.rows = std::max(1, static_cast<int>(std::lround(grid.rows / shrink)));
  for (int col = 0; col < sampling.cols; ++col) {
    sampling.col.push_back(static_cast<std::size_t>(picked(col, sampling.cols, grid.cols)));
  }
  for (int row = 0; row < sampling.rows; ++row) {
    sampling.row_begin.push_back(grid.index(0, picked(row, sampling.rows, grid.rows)));
  }
  return sampling;
}

std::vector<CodedMap> shown_maps(const ReportData& data, const Sampling& sampling,
                                 const EachOf& each) {
  struct Choice {
    Make make;
    bool wanted = true;
  };
  const std::array choices{
      Choice{suitability_map},
      Choice{confidence_map, !data.maps.confidence.empty()},
      Choice{yield_map},
      Choice{nitrogen_map},
      Choice{depth_map},
      Choice{season_map},
      Choice{wave_map, data.maps.waves != nullptr},
      Choice{reason_map},
  };
  std::vector<Make> wanted;
  for (const Choice& choice : choices) {
    if (choice.wanted) {
      wanted.push_back(choice.make);
    }
  }
  return made(wanted, data, sampling, each);
}

std::vector<CodedMap> read_out_maps(const ReportData& data, const Sampling& sampling,
                                    const EachOf& each) {
  constexpr std::array<Make, 3> kAll{outplant_map, last_haul_map, closed_map};
  return made(kAll, data, sampling, each);
}

double value_of(const CodedMap& map, std::uint8_t each) {
  return map.low + (each - code::kFirstValue) / kSteps * (map.high - map.low);
}

}  // namespace tidelot::page
