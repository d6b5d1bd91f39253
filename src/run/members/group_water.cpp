// SPDX-License-Identifier: Apache-2.0
#include "run/members/group_water.hpp"

#include <algorithm>
#include <array>
#include <limits>

namespace tidelot::run {
namespace {

/// Least and greatest latitude of the tiles that grew something.
std::array<float, 2> latitude_range(std::span<const TileEvidence> evidence) {
  std::array<float, 2> out{std::numeric_limits<float>::max(), std::numeric_limits<float>::lowest()};
  for (const TileEvidence& tile : evidence) {
    for (const float latitude : tile.latitudes) {
      out = {std::min(out[0], latitude), std::max(out[1], latitude)};
    }
  }
  return out;
}

}  // namespace

GroupWater::GroupWater(const TileGroup& group, std::span<const TileEvidence> evidence,
                       const SeasonSetup& setup)
    : group_(group),
      evidence_(evidence),
      setup_(setup),
      side_(std::max(group.tiles[0].cols, group.tiles[0].rows)),
      across_((group.area.cols + side_ - 1) / side_),
      grown_(group.area.size(), kNotGrown) {
  for (std::size_t t = 0; t < evidence.size(); ++t) {
    const Tile& tile = group.tiles[t];
    for (std::size_t k = 0; k < evidence[t].grown.size(); ++k) {
      const auto i = static_cast<int>(evidence[t].grown[k]);
      const int col = tile.col0 - group.area.col0 + i % tile.cols;
      const int row = tile.row0 - group.area.row0 + i / tile.cols;
      grown_[static_cast<std::size_t>(row * group.area.cols + col)] = static_cast<std::uint32_t>(k);
    }
  }
  const auto range = latitude_range(evidence);
  put_sun(sun_, range, setup);
  sun_.latitude_weight.clear();
  low_deg_ = range[0];
  span_deg_ = range[1] - range[0];
}

GroupWater::Spot GroupWater::spot(std::uint32_t cell) const {
  const int col = static_cast<int>(cell) % group_.area.cols;
  const int row = static_cast<int>(cell) / group_.area.cols;
  const auto tile = static_cast<std::uint32_t>(row / side_ * across_ + col / side_);
  const auto place =
      static_cast<std::uint32_t>(row % side_ * group_.tiles[tile].cols + col % side_);
  return {tile, place, grown_[cell]};
}

bool GroupWater::known(std::uint32_t cell) const {
  const Spot at = spot(cell);
  return at.grown != kNotGrown || (!evidence_[at.tile].latitudes.empty() &&
                                   evidence_[at.tile].unknown_property[at.cell] == 0);
}

const CellEvidence& GroupWater::evidence(std::uint32_t cell) const {
  const Spot at = spot(cell);
  return evidence_[at.tile].cells[at.cell];
}

/// A tile whose property is steady repeats it where another's is not.
void GroupWater::put_property(NodeArray KernelForcing::*property, MonthlyTile TileLayers::*layer,
                              std::span<const Spot> spots, KernelForcing& out) const {
  NodeArray& to = out.*property;
  std::vector<NodeArray> apart(evidence_.size());  // of each tile, of cells that it did not grow
  std::vector<std::vector<std::size_t>> which(evidence_.size());
  bool steady = true;
  for (const Spot& spot : spots) {
    const MonthlyTile& tile = evidence_[spot.tile].layers.*layer;
    if (tile.empty()) {
      return;
    }
    steady = steady && tile.steady;
    to.daily = to.daily || !tile.day.empty();
    if (spot.grown == kNotGrown) {
      which[spot.tile].push_back(spot.cell);
    }
  }
  to.steady = steady && !to.daily;
  for (std::size_t t = 0; t < apart.size(); ++t) {
    if (!which[t].empty()) {
      apart[t] = nodes_of(evidence_[t].layers.*layer, which[t], setup_.nodes());
    }
  }
  const std::size_t n = spots.size();
  to.values.resize(to.rows() * n);
  std::vector<std::size_t> taken(evidence_.size(), 0);
  for (std::size_t i = 0; i < n; ++i) {
    const Spot& spot = spots[i];
    const bool grown = spot.grown != kNotGrown;
    const NodeArray& from =
        grown ? evidence_[spot.tile].forcing.kernel.*property : apart[spot.tile];
    const std::size_t cells = grown ? evidence_[spot.tile].grown.size() : which[spot.tile].size();
    const std::size_t k = grown ? spot.grown : taken[spot.tile]++;
    for (std::size_t row = 0; row < to.rows(); ++row) {
      to.values[row * n + i] = from.values[(from.steady ? 0 : row) * cells + k];
    }
  }
}

KernelForcing GroupWater::operator()(std::span<const std::uint32_t> cells) const {
  KernelForcing out = sun_;
  out.cells = cells.size();
  out.outplant.assign(cells.size(), 1);
  out.last_haul.assign(cells.size(), 0);
  std::vector<Spot> spots;
  spots.reserve(cells.size());
  for (const std::uint32_t cell : cells) {
    spots.push_back(spot(cell));
    out.latitude_weight.push_back(span_deg_ > 0.0F ? (latitude(spots.back()) - low_deg_) / span_deg_
                                                   : 0.0F);
  }
  put_property(&KernelForcing::temperature, &TileLayers::temperature, spots, out);
  put_property(&KernelForcing::salinity, &TileLayers::salinity, spots, out);
  put_property(&KernelForcing::attenuation, &TileLayers::attenuation, spots, out);
  put_property(&KernelForcing::nitrogen, &TileLayers::nitrogen, spots, out);
  put_property(&KernelForcing::ammonium, &TileLayers::ammonium, spots, out);
  put_property(&KernelForcing::current, &TileLayers::current, spots, out);
  put_property(&KernelForcing::radiation, &TileLayers::radiation, spots, out);
  return out;
}

}  // namespace tidelot::run
