// SPDX-License-Identifier: Apache-2.0
#include "sites/select.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace tidelot {
namespace {

constexpr double kEdge = 1e-6;            // m
constexpr std::size_t kSeeds = 24;        // lattice places that are refined for one site
constexpr std::size_t kNearlySeeds = 12;  // of those that nearly fit
constexpr std::size_t kHopeful = 200;     // as long as nothing was found
constexpr std::size_t kMostHeld = 4096;   // popped and put back for one site
constexpr double kLeastSlack = 0.04;      // what refining may gain, until more was seen
constexpr std::size_t kFinest = 4;        // refined to the last step

double between_centres(XY a, XY b) { return std::hypot(a.x - b.x, a.y - b.y); }

/// The search for one site.
class Pick {
 public:
  Pick(Candidates& candidates, const Siting& siting, const Fits& fits,
       const std::vector<SiteBox>& taken, Refusals& refusals)
      : candidates_(candidates),
        siting_(siting),
        trials_(siting, fits, taken),
        taken_(taken),
        refusals_(refusals) {}

  std::optional<Placed> best() {
    refine_leading();
    refine_nearly();
    candidates_.put_back(held_);
    return finest();
  }

 private:
  [[nodiscard]] XY centre_of(const Candidate& at) const {
    return siting_.grid.centre(at.col, at.row);
  }
  [[nodiscard]] double angle_of(const Candidate& at) const {
    return siting_.footprints[static_cast<std::size_t>(at.angle)].angle_deg;
  }

  /// Too near at any angle: every box holds a disc about its centre.
  [[nodiscard]] bool never_keeps_gap(XY centre) const {
    const double mine = std::min(siting_.size.width_m, siting_.size.length_m) / 2.0;
    return std::any_of(taken_.begin(), taken_.end(), [&](const SiteBox& other) {
      const double least = siting_.gap_m + mine + other.core_m();
      return between_centres(centre, other.centre()) < least - kEdge;
    });
  }

  [[nodiscard]] bool keeps_gap(const SiteBox& box) const {
    return std::all_of(taken_.begin(), taken_.end(), [&](const SiteBox& other) {
      return !overlap(box, other) && distance_m(box, other) >= siting_.gap_m - kEdge;
    });
  }

  /// Was a seed refined so near that this one would end at the same place?
  [[nodiscard]] bool like_a_seed(XY centre, double angle) const {
    const double reach = std::max(2.0 * siting_.grid.cell_m, siting_.size.width_m / 2.0);
    return std::any_of(seeds_.begin(), seeds_.end(), [&](const Trial& seed) {
      const double turn = std::abs(seed.angle_deg - angle);
      return std::min(turn, 180.0 - turn) < 20.0 && between_centres(seed.centre, centre) < reach;
    });
  }

  /// Can a place of this estimate still become the best?
  [[nodiscard]] bool may_win(std::int64_t estimate) const {
    return !found_ ||
           static_cast<double>(estimate) * (1.0 + slack_) >= static_cast<double>(best_score_);
  }

  void refine(const Candidate& at) {
    const XY centre = centre_of(at);
    const double cell = siting_.grid.cell_m;
    seeds_.push_back({centre, angle_of(at), 0.0, 0});
    Trial trial = refined(trials_, trials_.at(centre, angle_of(at)), cell, cell / 4.0);
    if (trial.violation > 0.0) {
      trial = refined(trials_, trial, cell / 4.0, cell / 32.0);
    }
    if (trial.violation > 0.0 || trial.score <= 0) {
      return;
    }
    found_ = true;
    best_score_ = std::max(best_score_, trial.score);
    slack_ =
        std::max(slack_, static_cast<double>(trial.score) / static_cast<double>(at.score) - 1.0);
    results_.push_back(trial);
  }

  /// Does a place of the lattice hold as it stands? Counts why not.
  bool holds(const Candidate& at) {
    const SiteBox box(centre_of(at), angle_of(at), siting_.size);
    if (!siting_.setbacks.kept_by(box, season_at(siting_.grid, siting_.maps, box.centre()))) {
      ++refusals_.by_setback;
      return false;
    }
    refusals_.by_near += siting_.proximity.allows(box) ? 0 : 1;
    return siting_.proximity.allows(box);
  }

  void refine_leading() {
    while (held_.size() < kMostHeld && !(found_ && seeds_.size() >= kSeeds)) {
      const auto at = candidates_.pop();
      if (!at) {
        return;
      }
      if (!may_win(at->score)) {
        held_.push_back(*at);
        return;
      }
      look_at(*at);
    }
  }

  void look_at(const Candidate& at) {
    const XY centre = centre_of(at);
    const bool never = never_keeps_gap(centre);
    if (never || !keeps_gap(SiteBox(centre, angle_of(at), siting_.size))) {
      ++refusals_.by_gap;
      if (!never) {
        candidates_.next_angle(at);
      }
      return;
    }
    const bool stands = holds(at);
    stands ? held_.push_back(at) : candidates_.next_angle(at);
    if (!like_a_seed(centre, angle_of(at)) && (stands || seeds_.size() < kHopeful)) {
      refine(at);
    }
  }

  /// Every estimate that may_win() is no less; a little less than the least of them.
  [[nodiscard]] std::int64_t least_to_win() const {
    return found_ ? static_cast<std::int64_t>(static_cast<double>(best_score_) / (1.0 + slack_)) - 2
                  : 0;
  }

  void refine_nearly() {
    std::size_t tried = 0;
    for (std::size_t i = 0;; ++i) {
      const auto at = candidates_.nearly(i, least_to_win());
      if (!at || !may_win(at->score) || tried >= (found_ ? kNearlySeeds : kHopeful)) {
        return;
      }
      if (!never_keeps_gap(centre_of(*at)) && !like_a_seed(centre_of(*at), angle_of(*at))) {
        refine(*at);
        ++tried;
      }
    }
  }

  /// The leading results refined to the last step, and the best of them.
  std::optional<Placed> finest() {
    std::stable_sort(results_.begin(), results_.end(), better);
    results_.resize(std::min(results_.size(), kFinest));
    std::vector<Placed> places;
    for (const Trial& result : results_) {
      const double cell = siting_.grid.cell_m;
      const Trial last = refined(trials_, result, cell / 4.0, cell / 32.0);
      places.push_back({SiteBox(last.centre, last.angle_deg, siting_.size), last.angle_deg,
                        last.score, siting_.grid.cell_of(last.centre)});
    }
    const auto best =
        std::min_element(places.begin(), places.end(),
                         [](const Placed& a, const Placed& b) { return ranks_before(a, b); });
    return best == places.end() ? std::nullopt : std::optional(*best);
  }

  Candidates& candidates_;
  const Siting& siting_;
  Trials trials_;
  const std::vector<SiteBox>& taken_;
  Refusals& refusals_;
  std::vector<Trial> seeds_;
  std::vector<Trial> results_;
  std::vector<Candidate> held_;
  bool found_ = false;
  std::int64_t best_score_ = 0;
  double slack_ = kLeastSlack;
};

}  // namespace

bool ranks_before(const Placed& a, const Placed& b) {
  return std::tie(b.score, a.cell.row, a.cell.col, a.angle_deg) <
         std::tie(a.score, b.cell.row, b.cell.col, b.angle_deg);
}

std::vector<Placed> select_places(Candidates& candidates, const Siting& siting, const Fits& fits,
                                  int count, std::vector<SiteBox>& taken, Refusals& refusals) {
  std::vector<Placed> places;
  while (static_cast<int>(places.size()) < count) {
    const auto best = Pick(candidates, siting, fits, taken, refusals).best();
    if (!best) {
      break;
    }
    taken.push_back(best->box);
    places.push_back(*best);
  }
  std::stable_sort(places.begin(), places.end(),
                   [](const Placed& a, const Placed& b) { return ranks_before(a, b); });
  return places;
}

}  // namespace tidelot
