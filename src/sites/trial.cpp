// SPDX-License-Identifier: Apache-2.0
#include "sites/trial.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace tidelot {
namespace {

constexpr double kEdge = 1e-6;      // m
constexpr double kFirstTurn = 8.0;  // degrees
constexpr int kMostSweeps = 200;    // far above what is ever needed

/// A move: shares of the step along and across the long side, and of the turn.
struct Move {
  double along, across, turn;
};
constexpr double kHalf = std::numbers::sqrt2 / 2.0;
constexpr std::array kMoves{Move{1, 0, 0},          Move{-1, 0, 0},          Move{0, 1, 0},
                            Move{0, -1, 0},         Move{kHalf, kHalf, 0},   Move{kHalf, -kHalf, 0},
                            Move{-kHalf, kHalf, 0}, Move{-kHalf, -kHalf, 0}, Move{0, 0, 1},
                            Move{0, 0, -1},         Move{0, 1, 1},           Move{0, 1, -1},
                            Move{0, -1, 1},         Move{0, -1, -1},         Move{1, 0, 1},
                            Move{1, 0, -1},         Move{-1, 0, 1},          Move{-1, 0, -1}};

Trial worst() { return {{}, 0.0, std::numeric_limits<double>::infinity(), 0}; }

double half_turn(double angle_deg) {
  const double turned = std::fmod(angle_deg, 180.0);
  return turned < 0.0 ? turned + 180.0 : turned;
}

Trial moved(const Trials& trials, const Trial& from, const Move& move, double step_m,
            double turn_deg) {
  const double angle = from.angle_deg * std::numbers::pi / 180.0;
  const double along = move.along * step_m;
  const double across = move.across * step_m;
  const XY centre{from.centre.x + along * std::sin(angle) + across * std::cos(angle),
                  from.centre.y + along * std::cos(angle) - across * std::sin(angle)};
  const double asked = trials.angle_asked(centre);
  if (asked >= 0.0) {
    return move.turn != 0.0 ? worst() : trials.at(centre, asked, &from);
  }
  return trials.at(centre, half_turn(from.angle_deg + move.turn * turn_deg), &from);
}

}  // namespace

bool better(const Trial& a, const Trial& b) {
  return a.violation < b.violation || (a.violation == b.violation && a.score > b.score);
}

std::uint16_t season_at(const Grid& grid, const ScoredMaps& maps, XY centre) {
  const Cell cell = grid.cell_of(centre);
  const std::size_t i = grid.holds(cell) ? grid.index(cell.col, cell.row) : maps.outplant.size();
  if (i >= maps.outplant.size() || std::isnan(maps.outplant[i]) || std::isnan(maps.last_haul[i])) {
    return 0xFFF;
  }
  const int first = static_cast<int>(maps.outplant[i]);
  const int last = static_cast<int>(maps.last_haul[i]);
  return months_between(first, last + (last < first ? kDaysPerYear : 0));
}

Trials::Trials(const Siting& siting, const Fits& fits, const std::vector<SiteBox>& taken)
    : siting_(siting), fits_(fits), taken_(taken) {}

double Trials::angle_asked(XY centre) const {
  const Cell cell = siting_.grid.cell_of(centre);
  return siting_.along.empty() || !siting_.grid.holds(cell)
             ? -1.0
             : siting_.along[siting_.grid.index(cell.col, cell.row)];
}

/// Of a ranked site: how much too much of it is unknown. A site apart must have something unknown.
double Trials::known_violation(double unknown, double apart_only) const {
  const double area =
      siting_.size.length_m * siting_.size.width_m / (siting_.grid.cell_m * siting_.grid.cell_m);
  const double too_much = std::max(0.0, unknown - kMostUnknown * area);
  if (fits_.field().wanted() == Wanted::ranked) {
    return too_much;
  }
  return too_much > 0.0 || apart_only > 0.0 ? 0.0 : 1.0;
}

double Trials::gap_missing(const SiteBox& box) const {
  double worst = 0.0;
  for (const SiteBox& other : taken_) {
    const XY a = box.centre();
    const XY b = other.centre();
    if (std::hypot(a.x - b.x, a.y - b.y) > box.reach_m() + other.reach_m() + siting_.gap_m) {
      continue;
    }
    const double missing = siting_.gap_m - distance_m(box, other);
    worst = std::max(worst, missing > kEdge ? missing : 0.0);
    if (overlap(box, other)) {
      worst = std::max(worst, siting_.gap_m + siting_.grid.cell_m);
    }
  }
  return worst;
}

Trial Trials::at(XY centre, double angle_deg, const Trial* best) const {
  const SiteBox box(centre, angle_deg, siting_.size);
  const Fit fit = fits_.of({centre, angle_deg}, box, siting_.grid);
  Trial trial{centre, angle_deg, fit.barred, fit.score};
  if (!fits_.field().all_known()) {
    trial.violation += known_violation(fit.unknown, fit.apart_only);
  }
  if (best != nullptr && !better(trial, *best)) {
    return worst();  // more can only make it worse
  }
  trial.violation += gap_missing(box) / siting_.grid.cell_m;
  const std::uint16_t season = season_at(siting_.grid, siting_.maps, centre);
  trial.violation += siting_.setbacks.shortfall(box, season) / siting_.grid.cell_m;
  if (best != nullptr && !better(trial, *best)) {
    return worst();
  }
  trial.violation += siting_.proximity.allows(box) ? 0.0 : 1.0;
  return trial;
}

Trial refined(const Trials& trials, Trial start, double first_m, double last_m) {
  double turn = kFirstTurn;
  double step = first_m;
  for (int sweep = 0; step >= last_m && sweep < kMostSweeps; ++sweep) {
    bool found = false;
    for (const Move& move : kMoves) {
      const Trial trial = moved(trials, start, move, step, turn);
      if (better(trial, start)) {
        start = trial;
        found = true;
      }
    }
    if (!found) {
      step /= 2.0;
      turn = std::max(1.0, turn / 2.0);
    }
  }
  return start;
}

}  // namespace tidelot
