// SPDX-License-Identifier: Apache-2.0
#include "run/member_seasons.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <utility>

#include "run/plane_fit.hpp"
#include "tidelot/core/draws.hpp"

namespace tidelot::run {
namespace {

constexpr int kFirstBlock = 16;       // cells a side
constexpr std::size_t kFewCells = 8;  // a block of so few is grown in all
constexpr double kSmooth = 0.05;  // of the plane: how far a cell's best estimate may lie from it

using Indices = std::vector<std::uint32_t>;

/// A square of the tile and the cells in it.
struct Block {
  int col = 0, row = 0, side = 0;
  Indices cells;
};

/// Cells whose members are grown for a block: those that others lie between, and those that tell
/// how well.
struct Chosen {
  Indices corners;
  Indices looks;
};

std::vector<Block> parts_of(const Indices& cells, std::span<const TileCell> where, int side) {
  std::vector<Block> out;
  std::vector<std::pair<std::pair<int, int>, std::uint32_t>> order;
  for (const std::uint32_t cell : cells) {
    order.push_back({{where[cell].row / side, where[cell].col / side}, cell});
  }
  std::sort(order.begin(), order.end());
  for (const auto& [block, cell] : order) {
    const int row = block.first * side;
    const int col = block.second * side;
    if (out.empty() || out.back().row != row || out.back().col != col) {
      out.push_back({col, row, side, {}});
    }
    out.back().cells.push_back(cell);
  }
  return out;
}

void add_once(Indices& to, std::uint32_t cell) {
  if (std::find(to.begin(), to.end(), cell) == to.end()) {
    to.push_back(cell);
  }
}

std::uint32_t nearest_to(const Block& block, std::span<const TileCell> where, double col,
                         double row) {
  return *std::min_element(block.cells.begin(), block.cells.end(),
                           [&](std::uint32_t a, std::uint32_t b) {
                             const auto far = [&](std::uint32_t c) {
                               return std::abs(where[c].col - col) + std::abs(where[c].row - row);
                             };
                             return far(a) < far(b);
                           });
}

Chosen chosen_in(const Block& block, std::span<const TileCell> where) {
  if (block.cells.size() <= kFewCells) {
    return {block.cells, {}};
  }
  Chosen out;
  const int last = block.side - 1;
  for (const auto& [col, row] : {std::pair(0, 0), {last, 0}, {0, last}, {last, last}}) {
    add_once(out.corners, nearest_to(block, where, block.col + col, block.row + row));
  }
  double col = 0.0, row = 0.0;
  for (const std::uint32_t cell : block.cells) {
    col += where[cell].col;
    row += where[cell].row;
  }
  const auto n = static_cast<double>(block.cells.size());
  out.looks.push_back(nearest_to(block, where, col / n, row / n));
  // Another anywhere, so that what repeats with the blocks does not go unseen.
  const auto any = static_cast<std::size_t>(37 * block.row + 101 * block.col + 11);
  add_once(out.looks, block.cells[any % block.cells.size()]);
  return out;
}

MemberSeasons seasons_of(std::size_t cells, std::size_t members) {
  MemberSeasons out;
  out.members = members;
  out.yield_g_per_m.resize(cells * members);
  out.nitrogen_g_per_m.resize(cells * members);
  out.state.resize(cells * members, SeasonState::grows);
  return out;
}

/// Members of one tile, grown where asked and laid between the rest.
class MemberTile {
 public:
  MemberTile(const GrownCells& best, const Members& members, LayerDraws& draws)
      : best_(best),
        members_(members),
        draws_(draws),
        is_grown_(best.cells.size(), false),
        out_(seasons_of(best.cells.size(), members.size())) {
    for (std::size_t m = 0; m < members.size(); ++m) {
      stocked_.push_back(members.stocked(m));
    }
  }

  /// Those that are not grown yet.
  void grow(Indices cells);
  /// Lays the cells between the corners; grown ones stay, and those in which the best estimate
  /// itself is far from what lies between are added to `odd`. False, and nothing done, where the
  /// looks are off by more than the tolerance.
  [[nodiscard]] bool lay_between(const Block& block, const Chosen& chosen, double tolerance,
                                 Indices& odd);

  [[nodiscard]] MemberSeasons take() { return std::move(out_); }

 private:
  struct Season {
    float yield = 0.0F, nitrogen = 0.0F;  // net, g/m
    SeasonState state = SeasonState::grows;
  };
  /// Fresh weight and nitrogen, g/m.
  using Hauled = std::array<double, 2>;

  [[nodiscard]] XY spot(std::uint32_t cell) const {
    return {static_cast<double>(best_.cells[cell].col), static_cast<double>(best_.cells[cell].row)};
  }
  void put(std::uint32_t cell, std::size_t member, const Season& season);
  [[nodiscard]] Hauled best_hauled(std::uint32_t cell) const;
  [[nodiscard]] Hauled hauled(std::uint32_t cell, std::size_t member) const;
  [[nodiscard]] Hauled weighted_best(const Indices& corners,
                                     const std::vector<double>& weights) const;
  [[nodiscard]] bool is_smooth(std::uint32_t cell, const Indices& corners,
                               const PlaneFit& fit) const;
  [[nodiscard]] std::vector<Season> between(std::uint32_t cell, const Indices& corners,
                                            const PlaneFit& fit) const;
  [[nodiscard]] double share_mixed(const Indices& corners) const;
  [[nodiscard]] bool is_near(std::uint32_t look, const std::vector<Season>& laid,
                             double tolerance) const;

  const GrownCells& best_;
  const Members& members_;
  LayerDraws& draws_;
  std::vector<bool> is_grown_;
  std::vector<Stocked> stocked_;
  MemberSeasons out_;
};

void MemberTile::put(std::uint32_t cell, std::size_t member, const Season& season) {
  const std::size_t i = out_.at(cell, member);
  out_.yield_g_per_m[i] = season.yield;
  out_.nitrogen_g_per_m[i] = season.nitrogen;
  out_.state[i] = season.state;
}

void MemberTile::grow(Indices cells) {
  std::sort(cells.begin(), cells.end());
  cells.erase(std::unique(cells.begin(), cells.end()), cells.end());
  std::erase_if(cells, [&](std::uint32_t cell) { return is_grown_[cell]; });
  if (cells.empty()) {
    return;
  }
  std::vector<XY> places;
  for (const std::uint32_t cell : cells) {
    places.push_back(best_.places[cell]);
    is_grown_[cell] = true;
  }
  const MemberSeasons grown = grow_members(subset(best_.forcing, cells), places, members_, draws_);
  for (std::size_t k = 0; k < cells.size(); ++k) {
    for (std::size_t m = 0; m < members_.size(); ++m) {
      const std::size_t i = grown.at(k, m);
      put(cells[k], m, {grown.yield_g_per_m[i], grown.nitrogen_g_per_m[i], grown.state[i]});
    }
  }
  out_.grown += cells.size();
}

/// Nothing without a season.
MemberTile::Hauled MemberTile::best_hauled(std::uint32_t cell) const {
  if (best_.windows[cell].state != SeasonState::grows) {
    return {0.0, 0.0};
  }
  return {best_.result.yield_g_per_m[cell] + best_.stocked.fresh_g_per_m,
          best_.result.nitrogen_g_per_m[cell] + best_.stocked.nitrogen_g_per_m};
}

MemberTile::Hauled MemberTile::hauled(std::uint32_t cell, std::size_t member) const {
  const std::size_t i = out_.at(cell, member);
  return {out_.yield_g_per_m[i] + stocked_[member].fresh_g_per_m,
          out_.nitrogen_g_per_m[i] + stocked_[member].nitrogen_g_per_m};
}

MemberTile::Hauled MemberTile::weighted_best(const Indices& corners,
                                             const std::vector<double>& weights) const {
  Hauled out{};
  for (std::size_t k = 0; k < corners.size(); ++k) {
    const Hauled there = best_hauled(corners[k]);
    for (std::size_t i = 0; i < out.size(); ++i) {
      out[i] += weights[k] * there[i];
    }
  }
  return out;
}

/// Does the best estimate of a cell lie near the plane through the corners' best estimates, with a
/// season in all of them or in none?
bool MemberTile::is_smooth(std::uint32_t cell, const Indices& corners, const PlaneFit& fit) const {
  const SeasonState state = best_.windows[cell].state;
  const bool alike = std::all_of(corners.begin(), corners.end(),
                                 [&](std::uint32_t c) { return best_.windows[c].state == state; });
  const Hauled here = best_hauled(cell);
  const Hauled plane = weighted_best(corners, fit.weights(spot(cell)));
  const auto near = [](double a, double b) { return std::abs(a - b) <= kSmooth * std::abs(b); };
  return alike && near(here[0], plane[0]) && near(here[1], plane[1]);
}

/// A member that grows at all corners goes between them as the best estimate does; else the nearest
/// corner's is taken, season or none.
std::vector<MemberTile::Season> MemberTile::between(std::uint32_t cell, const Indices& corners,
                                                    const PlaneFit& fit) const {
  const std::vector<double> plane = fit.weights(spot(cell));
  const std::size_t nearest = fit.nearest(spot(cell));
  std::vector<double> alone(corners.size(), 0.0);
  alone[nearest] = 1.0;
  const Hauled best = best_hauled(cell);
  std::vector<Season> out;
  for (std::size_t m = 0; m < members_.size(); ++m) {
    const SeasonState state = out_.state[out_.at(corners[nearest], m)];
    if (state != SeasonState::grows) {
      out.push_back({0.0F, 0.0F, state});
      continue;
    }
    const bool everywhere = std::all_of(corners.begin(), corners.end(), [&](std::uint32_t c) {
      return out_.state[out_.at(c, m)] == SeasonState::grows;
    });
    const std::vector<double>& weights = everywhere ? plane : alone;
    const Hauled best_there = weighted_best(corners, weights);
    Hauled here{};
    for (std::size_t k = 0; k < corners.size(); ++k) {
      const Hauled there = hauled(corners[k], m);
      here[0] += weights[k] * there[0];
      here[1] += weights[k] * there[1];
    }
    for (std::size_t i = 0; i < here.size(); ++i) {
      const bool both = best[i] > 0.0 && best_there[i] > 0.0;
      here[i] = std::max(0.0, here[i] * (both ? best[i] / best_there[i] : 1.0));
    }
    out.push_back({static_cast<float>(here[0] - stocked_[m].fresh_g_per_m),
                   static_cast<float>(here[1] - stocked_[m].nitrogen_g_per_m), state});
  }
  return out;
}

/// Share of the members that have a season at some of the corners only.
double MemberTile::share_mixed(const Indices& corners) const {
  std::size_t mixed = 0;
  for (std::size_t m = 0; m < members_.size(); ++m) {
    const auto grows = std::count_if(corners.begin(), corners.end(), [&](std::uint32_t c) {
      return out_.state[out_.at(c, m)] == SeasonState::grows;
    });
    mixed += grows != 0 && grows != static_cast<std::ptrdiff_t>(corners.size()) ? 1 : 0;
  }
  return static_cast<double>(mixed) / static_cast<double>(members_.size());
}

/// Are P10, P50 and P90 of what lies between near those of what is grown?
bool MemberTile::is_near(std::uint32_t look, const std::vector<Season>& laid,
                         double tolerance) const {
  std::array<std::vector<float>, 2> between, grown;
  std::size_t other_state = 0;
  for (std::size_t m = 0; m < members_.size(); ++m) {
    const std::size_t i = out_.at(look, m);
    between[0].push_back(laid[m].yield);
    between[1].push_back(laid[m].nitrogen);
    grown[0].push_back(out_.yield_g_per_m[i]);
    grown[1].push_back(out_.nitrogen_g_per_m[i]);
    other_state += out_.state[i] != laid[m].state ? 1 : 0;
  }
  const std::array<double, 2> stock{best_.stocked.fresh_g_per_m, best_.stocked.nitrogen_g_per_m};
  for (std::size_t i = 0; i < between.size(); ++i) {
    const Quantiles a = quantiles_of(between[i]);
    const Quantiles b = quantiles_of(grown[i]);
    const double crop = std::max(stock[i], b.p50 + stock[i]);
    const double off =
        std::max({std::abs(a.p10 - b.p10), std::abs(a.p50 - b.p50), std::abs(a.p90 - b.p90)});
    if (!(off <= tolerance * crop)) {
      return false;
    }
  }
  return static_cast<double>(other_state) <= tolerance * static_cast<double>(members_.size());
}

bool MemberTile::lay_between(const Block& block, const Chosen& chosen, double tolerance,
                             Indices& odd) {
  std::vector<XY> spots;
  for (const std::uint32_t corner : chosen.corners) {
    spots.push_back(spot(corner));
  }
  if (!chosen.looks.empty() && share_mixed(chosen.corners) > tolerance) {
    return false;
  }
  const PlaneFit fit(std::move(spots));
  for (const std::uint32_t look : chosen.looks) {
    if (!is_near(look, between(look, chosen.corners, fit), tolerance)) {
      return false;
    }
  }
  for (const std::uint32_t cell : block.cells) {
    if (is_grown_[cell]) {
      continue;
    }
    if (!is_smooth(cell, chosen.corners, fit)) {
      odd.push_back(cell);
      continue;
    }
    const std::vector<Season> laid = between(cell, chosen.corners, fit);
    for (std::size_t m = 0; m < laid.size(); ++m) {
      put(cell, m, laid[m]);
    }
  }
  return true;
}

Indices all_of_them(std::size_t count) {
  Indices all(count);
  std::iota(all.begin(), all.end(), 0U);
  return all;
}

}  // namespace

MemberSeasons grow_members(const KernelForcing& best, std::span<const XY> places,
                           const Members& members, LayerDraws& draws) {
  MemberSeasons out = seasons_of(best.cells, members.size());
  out.grown = best.cells;
  const Deviates deviates = draws.at(places);
  for (std::size_t m = 0; m < members.size(); ++m) {
    const SeasonSetup& setup = members.setup(m);
    KernelForcing water = members.water(best, deviates, m);
    const auto windows = put_windows(water, setup);
    const KernelResult grown = grow_tile(water, setup.husbandry(), setup.constants());
    for (std::size_t cell = 0; cell < best.cells; ++cell) {
      const std::size_t i = out.at(cell, m);
      out.yield_g_per_m[i] = grown.yield_g_per_m[cell];
      out.nitrogen_g_per_m[i] = grown.nitrogen_g_per_m[cell];
      out.state[i] = windows[cell].state;
    }
  }
  return out;
}

MemberSeasons spread_members(const GrownCells& best, const Members& members, LayerDraws& draws,
                             double tolerance) {
  MemberTile tile(best, members, draws);
  std::vector<Block> blocks = parts_of(all_of_them(best.cells.size()), best.cells, kFirstBlock);
  while (!blocks.empty()) {
    std::vector<Chosen> chosen;
    Indices wanted;
    for (const Block& block : blocks) {
      const Chosen& one = chosen.emplace_back(chosen_in(block, best.cells));
      wanted.insert(wanted.end(), one.corners.begin(), one.corners.end());
      wanted.insert(wanted.end(), one.looks.begin(), one.looks.end());
    }
    tile.grow(std::move(wanted));
    std::vector<Block> cut;
    Indices odd;
    for (std::size_t i = 0; i < blocks.size(); ++i) {
      if (!tile.lay_between(blocks[i], chosen[i], tolerance, odd)) {
        const auto parts = parts_of(blocks[i].cells, best.cells, blocks[i].side / 2);
        cut.insert(cut.end(), parts.begin(), parts.end());
      }
    }
    tile.grow(std::move(odd));
    blocks = std::move(cut);
  }
  return tile.take();
}

}  // namespace tidelot::run
