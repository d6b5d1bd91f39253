// SPDX-License-Identifier: Apache-2.0
#include "depth_layers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

#include "edge_distance.hpp"
#include "scatter_field.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

constexpr double kMostlyWrong = 0.95;              // share of values with the wrong sign
constexpr PlausibleRange kLowWaterRange{-50, 50};  // m between two tidal datums
constexpr double kMaxFeather = 256.0;              // cells; judgement: blocks stay small

const char* word(Positive positive) { return positive == Positive::down ? "down" : "up"; }

void check_sign(const DepthSource& plan, const FileField& depth) {
  const char* const written = word(plan.positive);
  const char* const other = word(plan.positive == Positive::down ? Positive::up : Positive::down);
  const PixelStats& stats = depth.stats;
  if (depth.positive == other) {
    throw Error(Fault::input, fmt::format("{}.positive: {} says of itself that positive is {}, "
                                          "the plan says {}; correct the plan",
                                          plan.key, plan.file.written, depth.positive, written));
  }
  const double believed = static_cast<double>(stats.data - stats.outside);
  if (believed > 0.0 && static_cast<double>(stats.negative) > kMostlyWrong * believed) {
    throw Error(
        Fault::input,
        fmt::format("{}.positive: with \"{}\", {:.1f} % of the values of {} over the area "
                    "are dry land; set \"{}\", or choose an area with more water",
                    plan.key, written, 100.0 * static_cast<double>(stats.negative) / believed,
                    plan.file.written, other));
  }
}

/// The zero that a CF name speaks of; "" where it says none.
std::string zero_of(const std::string& standard_name) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 5> kZeros{
      {{"_geoid", "the geoid"},
       {"_geopotential_datum", "a geopotential datum"},
       {"_mean_sea_level", "mean sea level"},
       {"_reference_ellipsoid", "the ellipsoid"},
       {"_sea_surface", "the water's surface"}}};
  const auto found = std::find_if(kZeros.begin(), kZeros.end(), [&](const auto& each) {
    return standard_name.ends_with(each.first);
  });
  return std::string(found == kZeros.end() ? "" : found->second);
}

/// What the file says of its zero, beside what the plan says.
void check_zero(const DepthSource& plan, const FileField& depth, Opening& opening) {
  const std::string zero = zero_of(depth.standard_name);
  const auto warn = [&](const std::string& text) {
    opening.warnings.push_back(fmt::format("{}: {}: its standard_name is {}: {}", plan.key,
                                           plan.file.written, depth.standard_name, text));
  };
  if (depth.standard_name.ends_with("_sea_surface")) {
    warn(
        fmt::format("the water's surface moves with the tide and is no zero; the plan's datum "
                    "\"{}\" is believed, so make sure that the depths are reduced to it",
                    plan.datum));
  } else if (!zero.empty() && is_low_water_datum(plan.datum)) {
    warn(
        fmt::format("its zero is {}, not low water; the plan's datum \"{}\" is believed; write "
                    "the file's own zero and low_water_m if it is not",
                    zero, plan.datum));
  }
}

FileField depth_file(const DepthSource& plan, const RasterWish& wish, Opening& opening) {
  auto scatter = opening.opener.read_scatter(plan.file, plan.key, opening.grid.crs, opening.bounds);
  const bool points = scatter && scatter->kind == Scatter::Kind::points;
  if (plan.longest_edge_m && !points) {
    throw Error(Fault::plan, fmt::format("{}.longest_edge_m: bounds the triangles between points, "
                                         "and {} holds none; take it out",
                                         plan.key, plan.file.written));
  }
  return scatter ? scatter_field(wish, std::move(*scatter), plan.longest_edge_m, opening)
                 : open_raster_field(wish, opening);
}

Field depth_field(const DepthSource& plan, Opening& opening) {
  const double sign = plan.positive == Positive::down ? 1.0 : -1.0;
  FileField depth = depth_file(
      plan, {plan.key, plan.file, Quantity::depth, plan.unit, sign, false, std::nullopt}, opening);
  check_sign(plan, depth);
  check_zero(plan, depth, opening);
  LayerReport& report = opening.reports.back();
  report.basis += fmt::format("; positive {}, zero at {}", word(plan.positive), plan.datum);
  return std::move(depth.field);
}

Field low_water_field(const DepthSource& plan, Opening& opening) {
  if (const auto* metres = std::get_if<double>(&plan.low_water)) {
    Field field;
    field.constant.fill(*metres);
    return field;
  }
  FileField offset =
      open_raster_field({plan.key + ".low_water_m", std::get<FileRef>(plan.low_water),
                         Quantity::depth, "m", 1.0, false, kLowWaterRange},
                        opening);
  opening.reports.back().low = offset.stats.low;
  opening.reports.back().high = offset.stats.high;
  return std::move(offset.field);
}

void check_feather(const DepthSource& plan, const Grid& grid) {
  if (plan.feather_m > kMaxFeather * grid.cell_m) {
    throw Error(Fault::plan, fmt::format("{}.feather_m: {} m are more than {} cells of {} m; make "
                                         "it narrower",
                                         plan.key, shortest(plan.feather_m), shortest(kMaxFeather),
                                         shortest(grid.cell_m)));
  }
}

/// A row for all of them together: their reports tell of each alone.
void report_sources(const DepthPlan& plan, Opening& opening) {
  LayerReport report;
  report.key = plan.key;
  report.what = fmt::format("{} sources", plan.several.size());
  report.unit = canonical_unit(Quantity::depth);
  report.basis = "from the files; in each cell the first source that has a value";
  opening.reports.push_back(std::move(report));
}

/// What one source says of a tile.
struct Said {
  std::vector<float> low_water;
  std::vector<float> share;
};

/// Low water moves the zero: depth at low water = depth + low water above the layer's zero.
Said at_low_water(DepthLayers::Source& source, TileSampler& sampler) {
  Said said{{}, std::vector<float>(sampler.tile().size(), 1.0F)};
  said.low_water = sampler.node(source.depth, 0, said.share);
  const std::vector<float> low_water = sampler.node(source.low_water, 0, said.share);
  for (std::size_t i = 0; i < low_water.size(); ++i) {
    said.low_water[i] += low_water[i];
  }
  return said;
}

/// A tile with a border as wide as the widest feather, cut to the grid.
Tile with_border(const Grid& grid, const Tile& tile, double feather_m) {
  const int border = static_cast<int>(std::ceil(feather_m / grid.cell_m));
  const int col0 = std::max(0, tile.col0 - border);
  const int row0 = std::max(0, tile.row0 - border);
  return {col0, row0, std::min(grid.cols, tile.col0 + tile.cols + border) - col0,
          std::min(grid.rows, tile.row0 + tile.rows + border) - row0};
}

/// The part that a source has in each of its cells: 1 but near its edge.
std::vector<double> parts(const std::vector<float>& values, double feather_m, const Grid& grid,
                          const Tile& tile) {
  if (feather_m == 0.0) {
    return std::vector<double>(values.size(), 1.0);
  }
  std::vector<std::uint8_t> covered(values.size());
  std::transform(values.begin(), values.end(), covered.begin(),
                 [](float v) { return std::isnan(v) ? std::uint8_t{0} : std::uint8_t{1}; });
  std::vector<double> part = edge_distance(covered, tile.cols, tile.rows);
  for (double& cells : part) {
    cells = std::min(1.0, cells * grid.cell_m / feather_m);
  }
  return part;
}

/// Lays a better source over those that came before.
void lay_over(const Said& said, const std::vector<double>& part, std::uint8_t number,
              DepthTile& below) {
  for (std::size_t i = 0; i < part.size(); ++i) {
    const float value = said.low_water[i];
    if (std::isnan(value)) {
      continue;
    }
    float& depth = below.low_water[i];
    const bool mixed = part[i] < 1.0 && !std::isnan(depth);
    depth = mixed ? static_cast<float>(part[i] * value + (1.0 - part[i]) * depth) : value;
    below.share[i] = said.share[i];
    below.source[i] = number;
  }
}

template <typename T>
std::vector<T> cut(const std::vector<T>& values, const Tile& from, const Tile& to) {
  std::vector<T> part;
  part.reserve(to.size());
  for (int row = 0; row < to.rows; ++row) {
    const auto begin = values.begin() +
                       static_cast<std::ptrdiff_t>(row + to.row0 - from.row0) * from.cols +
                       (to.col0 - from.col0);
    part.insert(part.end(), begin, begin + to.cols);
  }
  return part;
}

}  // namespace

DepthLayers DepthLayers::clone() const {
  DepthLayers copy;
  for (const Source& source : sources) {
    copy.sources.push_back({source.depth.clone(), source.low_water.clone(), source.feather_m});
  }
  return copy;
}

DepthTile DepthLayers::sample(TileSampler& sampler) {
  if (sources.size() == 1) {
    Said said = at_low_water(sources[0], sampler);
    return {std::move(said.low_water), std::move(said.share), {}};
  }
  const Grid& grid = sampler.grid();
  const auto widest =
      std::max_element(sources.begin(), sources.end(),
                       [](const Source& a, const Source& b) { return a.feather_m < b.feather_m; });
  const Tile block = with_border(grid, sampler.tile(), widest->feather_m);
  TileSampler of_block = sampler.on(block);
  DepthTile all{std::vector<float>(block.size(), std::numeric_limits<float>::quiet_NaN()),
                std::vector<float>(block.size(), 0.0F),
                std::vector<std::uint8_t>(block.size(), kNoSource)};
  for (std::size_t i = sources.size(); i-- > 0;) {
    const Said said = at_low_water(sources[i], widest->feather_m > 0.0 ? of_block : sampler);
    lay_over(said, parts(said.low_water, sources[i].feather_m, grid, block),
             static_cast<std::uint8_t>(i), all);
  }
  return {cut(all.low_water, block, sampler.tile()), cut(all.share, block, sampler.tile()),
          cut(all.source, block, sampler.tile())};
}

DepthLayers open_depth(const DepthPlan& plan, Opening& opening) {
  if (!plan.several.empty()) {
    report_sources(plan, opening);
  }
  DepthLayers layers;
  for (const DepthSource& source : plan.sources()) {
    check_feather(source, opening.grid);
    Field depth =
        opened(source.key, opening, unknown_field(), [&] { return depth_field(source, opening); });
    Field low_water = opened(source.key + ".low_water_m", opening, unknown_field(),
                             [&] { return low_water_field(source, opening); });
    layers.sources.push_back({std::move(depth), std::move(low_water), source.feather_m});
  }
  return layers;
}

}  // namespace tidelot
