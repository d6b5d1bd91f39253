// SPDX-License-Identifier: Apache-2.0
#include "field.hpp"

#include <cmath>

#include "tidelot/layers/sampler.hpp"

namespace tidelot {
namespace {

void convert(const Field& field, std::span<float> values) {
  const Conversion& to = field.conversion;
  if (to.scale != 1.0 || to.offset != 0.0) {
    for (float& value : values) {
      value = static_cast<float>(to(value));
    }
  }
  if (field.to_kd != Field::ToKd::none) {
    for (float& value : values) {
      value = static_cast<float>(kd_of(field, value));
    }
  }
}

bool is_same_curves(const RasterInfo& a, const RasterInfo& b) {
  const bool curved = a.curves != nullptr && b.curves != nullptr;
  return curved ? a.curves->lon() == b.curves->lon() && a.curves->lat() == b.curves->lat()
                : a.curves == b.curves;
}

}  // namespace

bool is_same_lattice(const RasterInfo& a, const RasterInfo& b) {
  return a.cols == b.cols && a.rows == b.rows && a.geotransform == b.geotransform &&
         a.crs == b.crs && a.geographic == b.geographic && is_same_curves(a, b);
}

double kd_of(const Field& field, double value) {
  switch (field.to_kd) {
    case Field::ToKd::secchi:
      return kd_from_secchi(value, field.light.secchi);
    case Field::ToKd::turbidity:
      return field.light.turbidity_intercept + field.light.turbidity_slope * value;
    case Field::ToKd::kd490:
      return kd_from_kd490(value);
    case Field::ToKd::none:
      break;
  }
  return value;
}

Field Field::clone() const {
  Field copy;
  copy.constant = constant;
  copy.surface = surface;
  copy.band = band;
  copy.nodes = nodes;
  copy.conversion = conversion;
  copy.to_kd = to_kd;
  copy.light = light;
  copy.spread = spread;
  for (const Part& part : parts) {
    copy.parts.push_back({part.source->clone(), part.lattice});
  }
  return copy;
}

const std::vector<Stencil>& TileSampler::stencils(std::size_t lattice) {
  auto& made = stencils_[lattice];
  if (made.empty()) {
    Lattice& from = lattices_[lattice];
    made =
        make_stencils(from.info, source_positions(grid_, tile_, *from.grid_to_source, from.info));
  }
  return made;
}

std::vector<float> TileSampler::node(Field& field, int node, std::span<float> share) {
  const auto m = static_cast<std::size_t>(node);
  if (field.surface) {
    std::vector<float> values(tile_.size());
    field.surface->sample(grid_, tile_, values);
    for (std::size_t i = 0; i < share.size(); ++i) {  // there are no neighbours: all or nothing
      share[i] = std::isnan(values[i]) ? 0.0F : share[i];
    }
    return values;
  }
  if (field.parts.empty()) {
    return std::vector<float>(tile_.size(), static_cast<float>(field.constant[m]));
  }
  std::vector<float> values(tile_.size());
  Field::Part& part = field.parts[field.band[m].part];
  apply(stencils(part.lattice), *part.source, field.band[m].band,
        field.spread ? EdgeRule::half : edge_, values, share);
  convert(field, values);
  return values;
}

MonthlyTile TileSampler::all(Field& field) {
  MonthlyTile tile;
  tile.steady = field.nodes == YearNodes::one;
  tile.share.assign(field.parts.empty() || field.spread ? 0 : tile_.size(), 1.0F);
  for (int n = 0; n < count_of(field.nodes); ++n) {
    if (field.nodes == YearNodes::days) {
      tile.day.push_back(node(field, n, tile.share));
    } else {
      tile.month[static_cast<std::size_t>(n)] = node(field, n, tile.share);
    }
  }
  return tile;
}

}  // namespace tidelot
