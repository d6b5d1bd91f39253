// SPDX-License-Identifier: Apache-2.0
#include "run/members/lattice_nodes.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "run/members/member_seasons.hpp"
#include "tidelot/core/draws.hpp"
#include "tidelot/criteria/member_verdict.hpp"

namespace tidelot::run {

MemberRows::MemberRows(const MemberGround& ground, const Members& members, LayerDraws& draws)
    : ground_(ground), members_(members), draws_(draws), stride_(padded_members(members.size())) {}

void MemberRows::clear() {
  yield_.clear();
  figures_.clear();
}

void MemberRows::grow(std::span<const std::uint32_t> cells) {
  if (cells.empty()) {
    return;
  }
  std::vector<XY> places;
  for (const std::uint32_t cell : cells) {
    places.push_back(ground_.place(cell));
  }
  MemberSeasons grown = grow_members(ground_.water(cells), places, members_, draws_);
  const std::size_t count = members_.size();
  for (std::size_t k = 0; k < cells.size(); ++k) {
    const std::size_t first = grown.at(k, 0);
    const auto row = static_cast<std::ptrdiff_t>(yield_.size());
    yield_.resize(yield_.size() + stride_, std::numeric_limits<float>::quiet_NaN());
    for (std::size_t m = 0; m < count; ++m) {
      if (grown.state[first + m] == SeasonState::grows) {
        yield_[static_cast<std::size_t>(row) + m] = grown.yield_g_per_m[first + m];
      }
    }
    const Quantiles yield = quantiles_of(std::span(grown.yield_g_per_m).subspan(first, count));
    const Quantiles nitrogen =
        quantiles_of(std::span(grown.nitrogen_g_per_m).subspan(first, count));
    figures_.push_back({static_cast<float>(yield.p10), static_cast<float>(yield.p50),
                        static_cast<float>(yield.p90), static_cast<float>(nitrogen.p10),
                        static_cast<float>(nitrogen.p50), static_cast<float>(nitrogen.p90)});
  }
}

std::array<float, 2> crop_of(const SpreadFigures& figures, const Stocked& stocked) {
  const auto crop = [](float p50, double stock) {
    return std::max(static_cast<float>(stock), p50 + static_cast<float>(stock));
  };
  return {crop(figures[1], stocked.fresh_g_per_m), crop(figures[4], stocked.nitrogen_g_per_m)};
}

}  // namespace tidelot::run
