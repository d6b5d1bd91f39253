// SPDX-License-Identifier: Apache-2.0
#include "run/members/member_lattice.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "run/members/lattice_nodes.hpp"
#include "run/members/water_probe.hpp"

namespace tidelot::run {
namespace {

using Indices = std::vector<std::uint32_t>;

constexpr int kFirstSide = 64;         // cells
constexpr int kLastSide = 8;           // a square of this side that fails is grown in all
constexpr std::size_t kFewCells = 32;  // a square with fewer is grown in all
constexpr std::size_t kThinWater = 8;  // less than 1/8 of a square: cut before nodes are grown
constexpr std::size_t kOddCells = 8;   // with more that lie off it a square is cut
constexpr std::size_t kAtOnce = 1024;  // cells grown in one go
// What the next finer nodes show of a lattice is four times what is left on them where figures bend
// evenly, but figures step where a season is a day longer: 0.7 of it is counted, and no more than
// that of the tolerance may be shown. Probes see some of the members at one place of a square.
constexpr float kMayShow = 0.7F;
constexpr float kLeft = 0.7F;
constexpr float kUnseen = 1.5F;

/// A square between four lines of the ground; its corners are nodes.
struct Square {
  int col0 = 0, row0 = 0, col1 = 0, row1 = 0;
  std::size_t block = 0;  ///< the first square that it is part of

  [[nodiscard]] int side() const { return std::max(col1 - col0, row1 - row0); }
};

/// Lines that halve a stretch, itself among them.
Indices halves(int from, int to) {
  Indices lines{static_cast<std::uint32_t>(from)};
  for (const int line : {(from + to) / 2, to}) {
    if (line > static_cast<int>(lines.back())) {
      lines.push_back(static_cast<std::uint32_t>(line));
    }
  }
  return lines;
}

/// Lines every so many cells, and the last.
std::vector<int> first_lines(int cells) {
  std::vector<int> lines;
  for (int line = 0; line < cells - 1 || line == 0; line += kFirstSide) {
    lines.push_back(line);
  }
  lines.push_back(cells - 1);
  return lines;
}

std::array<float, 4> shares_at(const Square& square, int col, int row) {
  const auto along = [](int at, int from, int to) {
    return to > from ? static_cast<float>(at - from) / static_cast<float>(to - from) : 0.0F;
  };
  const float x = along(col, square.col0, square.col1);
  const float y = along(row, square.row0, square.row1);
  return {(1.0F - x) * (1.0F - y), x * (1.0F - y), (1.0F - x) * y, x * y};
}

class Lattice {
 public:
  Lattice(const MemberGround& ground, const Members& members, LayerDraws& draws, double tolerance,
          const TakeMembers& take)
      : ground_(ground),
        members_(members),
        draws_(draws),
        tolerance_(static_cast<float>(tolerance)),
        take_(take),
        nodes_(ground, members, draws),
        node_row_(ground.wanted.size(), kNoRow),
        told_(ground.wanted.size(), 0) {}

  LatticeCount run();

 private:
  static constexpr std::uint32_t kNoRow = 0xFFFFFFFFU;

  [[nodiscard]] std::uint32_t index(int col, int row) const {
    return static_cast<std::uint32_t>(row) * static_cast<std::uint32_t>(ground_.cols) +
           static_cast<std::uint32_t>(col);
  }
  [[nodiscard]] int col_of(std::uint32_t cell) const {
    return static_cast<int>(cell) % ground_.cols;
  }
  [[nodiscard]] int row_of(std::uint32_t cell) const {
    return static_cast<int>(cell) / ground_.cols;
  }
  [[nodiscard]] std::array<std::uint32_t, 4> corners(const Square& s) const {
    return {index(s.col0, s.row0), index(s.col1, s.row0), index(s.col0, s.row1),
            index(s.col1, s.row1)};
  }
  [[nodiscard]] Indices open_cells(const Square& square) const;
  [[nodiscard]] Indices nodes_in(const Square& square) const;
  [[nodiscard]] std::vector<Square> parts(const Square& square) const;
  [[nodiscard]] std::vector<Square> first_squares() const;
  [[nodiscard]] SpreadFigures between(const Square& square, std::uint32_t cell) const;

  void probe(const std::vector<Square>& squares);
  void fail(const Square& square, const Indices& cells, std::vector<Square>& next);
  [[nodiscard]] bool wants_nodes(const Square& square, std::vector<Square>& next);
  void grow_nodes(Indices cells);
  void grow_exactly();
  void tell_grown(std::uint32_t cell, const MemberRows& rows, std::size_t row);
  /// What the nodes within a square show of it, as shares of the crop.
  struct Shown {
    float figures = 0.0F;  ///< the most that a figure is off
    float members = 0.0F;  ///< root mean square of the members' yields
    bool mixed = false;    ///< too many members have a season at some nodes only
  };
  [[nodiscard]] Shown shown(const Square& square) const;
  [[nodiscard]] bool has_mixed(const Indices& nodes) const;
  [[nodiscard]] bool lay(const Square& square, const Shown& shown);
  void take_between(const Square& part, const Indices& cells, std::span<const float> off,
                    const Shown& shown);

  const MemberGround& ground_;
  const Members& members_;
  LayerDraws& draws_;
  float tolerance_;
  const TakeMembers& take_;
  MemberRows nodes_;
  Indices node_row_;                      ///< of a node; kNoRow: none
  std::vector<std::uint8_t> told_;        ///< 1: by its own members or by a square
  Indices exact_;                         ///< to be grown in the end
  std::vector<Sensitivity> sensitivity_;  ///< of each first square
  LatticeCount count_;
};

/// The square's wanted cells that are not told; lines to the east and south belong to the next.
Indices Lattice::open_cells(const Square& square) const {
  Indices out;
  const int col1 = square.col1 + (square.col1 == ground_.cols - 1 ? 1 : 0);
  const int row1 = square.row1 + (square.row1 == ground_.rows - 1 ? 1 : 0);
  for (int row = square.row0; row < row1; ++row) {
    for (int col = square.col0; col < col1; ++col) {
      const std::uint32_t cell = index(col, row);
      if (ground_.wanted[cell] != 0 && told_[cell] == 0) {
        out.push_back(cell);
      }
    }
  }
  return out;
}

Indices Lattice::nodes_in(const Square& square) const {
  Indices out;
  for (const std::uint32_t row : halves(square.row0, square.row1)) {
    for (const std::uint32_t col : halves(square.col0, square.col1)) {
      out.push_back(index(static_cast<int>(col), static_cast<int>(row)));
    }
  }
  return out;
}

std::vector<Square> Lattice::parts(const Square& square) const {
  const auto stretches = [](int from, int to) {
    const Indices lines = halves(from, to);
    std::vector<std::array<int, 2>> out;
    for (std::size_t i = 0; i + 1 < lines.size() || i == 0; ++i) {
      out.push_back(
          {static_cast<int>(lines[i]), static_cast<int>(lines[std::min(i + 1, lines.size() - 1)])});
    }
    return out;
  };
  std::vector<Square> out;
  for (const auto& [row0, row1] : stretches(square.row0, square.row1)) {
    for (const auto& [col0, col1] : stretches(square.col0, square.col1)) {
      out.push_back({col0, row0, col1, row1, square.block});
    }
  }
  return out;
}

std::vector<Square> Lattice::first_squares() const {
  const std::vector<int> cols = first_lines(ground_.cols);
  const std::vector<int> rows = first_lines(ground_.rows);
  std::vector<Square> out;
  for (std::size_t j = 0; j + 1 < rows.size(); ++j) {
    for (std::size_t i = 0; i + 1 < cols.size(); ++i) {
      out.push_back({cols[i], rows[j], cols[i + 1], rows[j + 1], out.size()});
    }
  }
  return out;
}

/// Grows probes in the wanted cell nearest to the middle of each square that may become a lattice.
void Lattice::probe(const std::vector<Square>& squares) {
  Indices cells;
  std::vector<std::size_t> blocks;
  for (const Square& square : squares) {
    const Indices open = open_cells(square);
    count_.cells += open.size();
    if (open.size() < kFewCells) {
      continue;
    }
    const auto far = [&](std::uint32_t cell) {
      return std::abs(2 * col_of(cell) - square.col0 - square.col1) +
             std::abs(2 * row_of(cell) - square.row0 - square.row1);
    };
    cells.push_back(*std::min_element(open.begin(), open.end(),
                                      [&](auto a, auto b) { return far(a) < far(b); }));
    blocks.push_back(square.block);
  }
  sensitivity_.resize(squares.size());
  const auto found = sensitivities(ground_, cells, members_, draws_, count_.probes);
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    sensitivity_[blocks[i]] = found[i];
  }
}

void Lattice::fail(const Square& square, const Indices& cells, std::vector<Square>& next) {
  if (square.side() <= kLastSide) {
    exact_.insert(exact_.end(), cells.begin(), cells.end());
    for (const std::uint32_t cell : cells) {
      told_[cell] = 1;
    }
    return;
  }
  const std::vector<Square> cut = parts(square);
  next.insert(next.end(), cut.begin(), cut.end());
}

/// False, and taken care of, where a square has too little water for nodes or one cannot be grown.
bool Lattice::wants_nodes(const Square& square, std::vector<Square>& next) {
  const Indices open = open_cells(square);
  if (open.empty()) {
    return false;
  }
  if (open.size() < kFewCells) {
    exact_.insert(exact_.end(), open.begin(), open.end());
    for (const std::uint32_t cell : open) {
      told_[cell] = 1;
    }
    return false;
  }
  const auto area = static_cast<std::size_t>(square.col1 - square.col0 + 1) *
                    static_cast<std::size_t>(square.row1 - square.row0 + 1);
  const Indices nodes = nodes_in(square);
  const bool known = std::all_of(nodes.begin(), nodes.end(),
                                 [&](std::uint32_t node) { return ground_.known(node); });
  if (!known || (open.size() * kThinWater < area && square.side() > kLastSide)) {
    fail(square, open, next);
    return false;
  }
  return true;
}

void Lattice::tell_grown(std::uint32_t cell, const MemberRows& rows, std::size_t row) {
  MembersHere here{cell, rows.figures(row), {}, {1.0F, 0.0F, 0.0F, 0.0F}, 0.0F};
  here.yield_g_per_m.fill(rows.yield(row));
  told_[cell] = 1;
  ++count_.exact;
  static_cast<void>(take_(here));
}

void Lattice::grow_nodes(Indices cells) {
  std::sort(cells.begin(), cells.end());
  cells.erase(std::unique(cells.begin(), cells.end()), cells.end());
  std::erase_if(cells, [&](std::uint32_t cell) { return node_row_[cell] != kNoRow; });
  const std::size_t first = nodes_.size();
  nodes_.grow(cells);
  count_.grown += cells.size();
  for (std::size_t k = 0; k < cells.size(); ++k) {
    node_row_[cells[k]] = static_cast<std::uint32_t>(first + k);
    if (ground_.wanted[cells[k]] != 0 && told_[cells[k]] == 0) {
      tell_grown(cells[k], nodes_, first + k);
    }
  }
}

void Lattice::grow_exactly() {
  std::sort(exact_.begin(), exact_.end());
  MemberRows rows(ground_, members_, draws_);
  for (std::size_t first = 0; first < exact_.size(); first += kAtOnce) {
    const auto cells = std::span<const std::uint32_t>(exact_).subspan(
        first, std::min(kAtOnce, exact_.size() - first));
    rows.clear();
    rows.grow(cells);
    count_.grown += cells.size();
    for (std::size_t k = 0; k < cells.size(); ++k) {
      tell_grown(cells[k], rows, k);
    }
  }
}

SpreadFigures Lattice::between(const Square& square, std::uint32_t cell) const {
  const auto at = corners(square);
  const auto shares = shares_at(square, col_of(cell), row_of(cell));
  SpreadFigures out{};
  for (std::size_t k = 0; k < at.size(); ++k) {
    const SpreadFigures& there = nodes_.figures(node_row_[at[k]]);
    for (std::size_t i = 0; i < out.size(); ++i) {
      out[i] += shares[k] * there[i];
    }
  }
  return out;
}

/// Have too many members a season at some of the nodes only?
bool Lattice::has_mixed(const Indices& nodes) const {
  std::size_t mixed = 0;
  for (std::size_t m = 0; m < members_.size(); ++m) {
    const auto none = std::count_if(nodes.begin(), nodes.end(), [&](std::uint32_t node) {
      return std::isnan(nodes_.yield(node_row_[node])[m]);
    });
    mixed += none != 0 && none != static_cast<std::ptrdiff_t>(nodes.size()) ? 1 : 0;
  }
  return static_cast<float>(mixed) > tolerance_ * static_cast<float>(members_.size());
}

Lattice::Shown Lattice::shown(const Square& square) const {
  const auto at = corners(square);
  const Indices nodes = nodes_in(square);
  Shown out;
  out.mixed = has_mixed(nodes);
  for (const std::uint32_t node : nodes) {
    if (std::find(at.begin(), at.end(), node) != at.end()) {
      continue;
    }
    const SpreadFigures laid = between(square, node);
    const SpreadFigures& grown = nodes_.figures(node_row_[node]);
    const auto crop = crop_of(grown, ground_.stocked);
    for (std::size_t i = 0; i < laid.size(); ++i) {
      out.figures = std::max(out.figures, std::abs(laid[i] - grown[i]) / crop[i / 3]);
    }
    const auto shares = shares_at(square, col_of(node), row_of(node));
    double squares = 0.0;
    for (std::size_t m = 0; m < members_.size(); ++m) {
      float off = -nodes_.yield(node_row_[node])[m];
      for (std::size_t k = 0; k < at.size(); ++k) {
        off += shares[k] * nodes_.yield(node_row_[at[k]])[m];
      }
      squares += std::isnan(off) ? 0.0 : static_cast<double>(off) * static_cast<double>(off);
    }
    const auto rms = static_cast<float>(std::sqrt(squares / static_cast<double>(members_.size())));
    out.members = std::max(out.members, rms / crop[0]);
  }
  return out;
}

void Lattice::take_between(const Square& part, const Indices& cells, std::span<const float> off,
                           const Shown& shown) {
  const auto at = corners(part);
  MembersHere here;
  for (std::size_t k = 0; k < at.size(); ++k) {
    here.yield_g_per_m[k] = nodes_.yield(node_row_[at[k]]);
  }
  for (std::size_t i = 0; i < cells.size(); ++i) {
    here.cell = cells[i];
    here.share = shares_at(part, col_of(cells[i]), row_of(cells[i]));
    here.figures = between(part, cells[i]);
    const float share = kLeft * std::max(shown.figures, shown.members) + kUnseen * off[i];
    here.off_g_per_m = share * crop_of(here.figures, ground_.stocked)[0];
    told_[cells[i]] = 1;
    if (kLeft * shown.figures + kUnseen * off[i] > tolerance_ || !take_(here)) {
      exact_.push_back(cells[i]);
    }
  }
}

/// Tells a square's cells by its nodes; false, and nothing done, where too many lie off them.
bool Lattice::lay(const Square& square, const Shown& shown) {
  std::vector<Indices> cells;
  std::vector<std::vector<float>> off;
  std::size_t odd = 0;
  const std::vector<Square> four = parts(square);
  for (const Square& part : four) {
    const Indices& open = cells.emplace_back(open_cells(part));
    Indices with_corners = open;
    for (const std::uint32_t corner : corners(part)) {
      with_corners.push_back(corner);
    }
    std::vector<std::array<float, 4>> shares;
    for (const std::uint32_t cell : open) {
      shares.push_back(shares_at(part, col_of(cell), row_of(cell)));
    }
    const auto& far = off.emplace_back(
        off_by_water(ground_.water(with_corners), shares, sensitivity_[square.block]));
    odd += static_cast<std::size_t>(std::count_if(far.begin(), far.end(), [&](float share) {
      return kLeft * shown.figures + kUnseen * share > tolerance_;
    }));
  }
  if (odd > kOddCells && square.side() > kLastSide) {
    return false;
  }
  for (std::size_t i = 0; i < four.size(); ++i) {
    take_between(four[i], cells[i], off[i], shown);
  }
  return true;
}

LatticeCount Lattice::run() {
  std::vector<Square> squares = first_squares();
  probe(squares);
  while (!squares.empty()) {
    std::vector<Square> tested, next;
    Indices nodes;
    for (const Square& square : squares) {
      if (wants_nodes(square, next)) {
        tested.push_back(square);
        const Indices more = nodes_in(square);
        nodes.insert(nodes.end(), more.begin(), more.end());
      }
    }
    grow_nodes(std::move(nodes));
    for (const Square& square : tested) {
      const Shown seen = shown(square);
      if (seen.mixed || seen.figures > kMayShow * tolerance_ || !lay(square, seen)) {
        fail(square, open_cells(square), next);
      }
    }
    squares = std::move(next);
  }
  grow_exactly();
  return count_;
}

}  // namespace

void LatticeCount::add(const LatticeCount& other) {
  cells += other.cells;
  grown += other.grown;
  exact += other.exact;
  probes += other.probes;
}

LatticeCount tell_members(const MemberGround& ground, const Members& members, LayerDraws& draws,
                          double tolerance, const TakeMembers& take) {
  return Lattice(ground, members, draws, tolerance, take).run();
}

}  // namespace tidelot::run
