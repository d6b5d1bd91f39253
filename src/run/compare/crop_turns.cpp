// SPDX-License-Identifier: Apache-2.0
#include "run/compare/crop_turns.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "run/compare/bay_json.hpp"
#include "run/resume/identity.hpp"
#include "run/sites/site_cells.hpp"
#include "run/sites/site_centre.hpp"
#include "run/sites/site_farm.hpp"
#include "run/sites/site_limits.hpp"
#include "run/sites/site_spread.hpp"
#include "run/tiles/grid_parts.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/season/turns.hpp"

namespace tidelot::run {
namespace {

namespace fs = std::filesystem;

/// One crop at the centre of the first site: its season there, and what one line carries off.
class CentreCrop {
 public:
  CentreCrop(const Plan& plan, const Area& area, const Site& site) : setup_(plan) {
    const std::unique_ptr<LayerSet> layers = area.layers->clone();
    if (const auto here = centre_layers(site, *layers)) {
      water_ = CentreWater{cell_forcing(*here, site.centre.lat, setup_), site.centre.lat};
    }
  }
  [[nodiscard]] SeasonWindow season() const {
    return water_ ? water_->forcing.windows[0] : SeasonWindow{SeasonState::too_cold, 0, 0};
  }
  [[nodiscard]] double nitrogen(const SeasonWindow& season) const {
    return grow_season(days_in(*water_, season, setup_), setup_.husbandry(), setup_.constants())
        .nitrogen_g_per_m;
  }

 private:
  SeasonSetup setup_;
  std::optional<CentreWater> water_;
};

/// Days from a date on to another, 0..364.
int days_on(DayOfYear from, DayOfYear to) {
  return ((to - from) % kDaysPerYear + kDaysPerYear) % kDaysPerYear;
}

/// The plan with its crop in the water from a day until the day before another, within its own gear
/// dates where it has them: those of the dates' stretches that the season lies in.
Plan between(Plan plan, const SeasonWindow& season, DayOfYear from, DayOfYear until) {
  int before = days_on(from, season.outplant);
  int after = days_on(wrapped_day(season.last_haul), until) - 1;
  if (plan.season.gear_in && plan.season.gear_out) {
    before = std::min(before, days_on(*plan.season.gear_in, season.outplant));
    after = std::min(after, days_on(wrapped_day(season.last_haul), *plan.season.gear_out));
  }
  plan.season.gear_in = wrapped_day(season.outplant - before + kDaysPerYear);
  plan.season.gear_out = wrapped_day(season.last_haul + after);
  return plan;
}

/// Mean by share of what is known, as the sites' own figures are.
struct Mean {
  double sum = 0.0, weight = 0.0;
  void add(float value, double share) {
    if (!std::isnan(value)) {
      sum += static_cast<double>(value) * share;
      weight += share;
    }
  }
  [[nodiscard]] double value() const { return weight == 0.0 ? 0.0 : sum / weight; }
};

/// What a crop's best estimate is in the cells around a site.
struct CellsAround {
  Tile box;
  std::vector<float> yield_kg_per_m, nitrogen_g_per_m;
  std::vector<std::uint32_t> closed;
};

/// By the tiles that scout has: the light of a cell hangs, by a few parts in ten millions, on the
/// tile that it is grown with.
CellsAround cells_around(const Site& site, const TileJob& job, Worker& worker) {
  CellsAround out{tile_around(*job.grid, site), {}, {}, {}};
  const Tile& box = out.box;
  out.yield_kg_per_m.resize(box.size());
  out.nitrogen_g_per_m.resize(box.size());
  out.closed.resize(box.size());
  for (const Tile& tile : tiles_of(*job.grid, tile_side(*job.grid))) {
    const int col0 = std::max(tile.col0, box.col0), row0 = std::max(tile.row0, box.row0);
    const int col1 = std::min(tile.col0 + tile.cols, box.col0 + box.cols);
    const int row1 = std::min(tile.row0 + tile.rows, box.row0 + box.rows);
    if (col0 >= col1 || row0 >= row1) {
      continue;
    }
    const TileEvidence evidence = evidence_of(tile, job, worker);
    for (int row = row0; row < row1; ++row) {
      for (int col = col0; col < col1; ++col) {
        const auto from = static_cast<std::size_t>((row - tile.row0) * tile.cols + col - tile.col0);
        const auto to = static_cast<std::size_t>((row - box.row0) * box.cols + col - box.col0);
        out.yield_kg_per_m[to] = static_cast<float>(evidence.cells[from].yield_kg_per_m);
        out.nitrogen_g_per_m[to] = evidence.nitrogen_g_per_m[from];
        out.closed[to] = (*job.scorer)(evidence.cells[from]).closed;
      }
    }
  }
  return out;
}

/// Adds the best estimate's means over the site's cells; bits of what closes any of them.
std::uint32_t measure(Site& site, const TileJob& job, Worker& worker) {
  const CellsAround cells = cells_around(site, job, worker);
  Mean yield, nitrogen;
  std::uint32_t closed = 0;
  for_each_cell_under(site, *job.grid, cells.box, [&](std::size_t i, double share) {
    yield.add(cells.yield_kg_per_m[i], share);
    nitrogen.add(cells.nitrogen_g_per_m[i], share);
    closed |= cells.closed[i] == kClosedUnknown ? 0U : cells.closed[i];
  });
  site.yield_kg_per_m = yield.value();
  site.nitrogen_g_per_m = nitrogen.value();
  site.yield_t = site.yield_without_t = site.layout.line_m * site.yield_kg_per_m / 1000.0;
  site.nitrogen_kg = site.nitrogen_without_kg = site.layout.line_m * site.nitrogen_g_per_m / 1000.0;
  return closed;
}

/// A crop on sites that are there, and what closes them to it.
struct CropOnSites {
  SitesResult sites;
  std::set<std::string> closed_by;
};

CropOnSites grow_on(const Plan& plan, const Bay& lease, const RunOptions& options) {
  Area area = open_area(plan);
  const GridParts parts(plan, area, options.threads, options.stop_signal);
  const TileJob job = parts.job();
  std::vector<Worker> workers = workers_of(plan, area, job, 1);
  const std::vector<std::string> bits = closed_bit_names(plan);
  CropOnSites out;
  for (const BaySite& there : lease.sites) {
    Site& site = out.sites.ranked.emplace_back(site_of(there));
    const std::uint32_t closed = measure(site, job, workers[0]);
    for (std::size_t bit = 0; bit < bits.size(); ++bit) {
      if (((closed >> bit) & 1U) != 0) {
        out.closed_by.insert(bits[bit]);
      }
    }
  }
  add_farms(out.sites, plan, area, options.threads, options.stop_signal);
  add_site_seasons(out.sites, plan, area);
  if (job.members != nullptr) {
    add_site_spreads(out.sites, plan, area, job, options.threads, options.stop_signal);
  }
  return out;
}

CropYield yield_of(const std::string& crop, const SitesResult& sites, const SeasonWindow& season) {
  CropYield out;
  out.crop = crop;
  out.outplant = wrapped_day(season.outplant);
  out.last_haul = wrapped_day(season.last_haul);
  out.sites = sites.ranked.size();
  for (const Site& site : sites.ranked) {
    const auto& together = site.with_neighbours;
    out.line_m += site.layout.line_m;
    out.yield_t += together ? together->yield_t : site.yield_t;
    out.nitrogen_kg += together ? together->nitrogen_kg : site.nitrogen_kg;
  }
  if (sites.set_spread) {
    out.members = sites.set_spread->members;
  }
  return out;
}

CropsInTurn cannot(std::string why) {
  CropsInTurn out;
  out.cannot = std::move(why);
  return out;
}

/// Where the turns are known: both crops within them.
CropsInTurn in_turns(const Plan& first, const Plan& second, const Bay& lease, const Turns& turns,
                     const RunOptions& options) {
  const CropOnSites two =
      grow_on(between(second, turns.second, turns.second_from, turns.first_from), lease, options);
  if (!two.closed_by.empty()) {
    std::string by;
    for (const std::string& each : two.closed_by) {
      by += (by.empty() ? "" : "; ") + each;
    }
    return cannot(fmt::format("a site is closed to {}: {}", second.crop.name, by));
  }
  const CropOnSites one =
      grow_on(between(first, turns.first, turns.first_from, turns.second_from), lease, options);
  return {"",
          turns.cut,
          turns.first_from,
          turns.second_from,
          yield_of(first.crop.name, one.sites, turns.first),
          yield_of(second.crop.name, two.sites, turns.second)};
}

}  // namespace

CropsInTurn crops_in_turn(const Plan& first, const Plan& second, const Bay& lease,
                          const RunOptions& options) {
  if (lease.sites.empty()) {
    return cannot(fmt::format("{} has no site", first.crop.name));
  }
  const Site best = site_of(lease.sites[0]);
  const Area area = open_area(first);
  const CentreCrop one(first, area, best), two(second, area, best);
  for (const auto& [crop, plan] : {std::pair(&one, &first), std::pair(&two, &second)}) {
    if (crop->season().days() < 1) {
      return cannot(fmt::format("{} has no season at {}", plan->crop.name, best.name));
    }
  }
  const auto of_first = [&](const SeasonWindow& season) { return one.nitrogen(season); };
  const auto of_second = [&](const SeasonWindow& season) { return two.nitrogen(season); };
  const Turns turns = best_turns(one.season(), two.season(), of_first, of_second);
  const double alone = std::max(of_first(one.season()), of_second(two.season()));
  const bool both = turns.first.days() > 0 && turns.second.days() > 0;
  if (!both || !(of_first(turns.first) + of_second(turns.second) > alone)) {
    return cannot(fmt::format(
        "their seasons overlap so far that no turn carries off more than {} alone",
        of_first(one.season()) >= of_second(two.season()) ? first.crop.name : second.crop.name));
  }
  return in_turns(first, second, lease, turns, options);
}

CropsInTurn finished_turns(const Plan& first, const Plan& second, const FinishedRun& of_first,
                           const FinishedRun& of_second, const fs::path& folder,
                           const RunOptions& options) {
  const std::string of = identity_kept(of_first.folder) + " " + identity_kept(of_second.folder);
  return turn_from(kept_in(folder, "in_turn", of, [&] {
    return turn_json(crops_in_turn(first, second, of_first.bay, options));
  }));
}

}  // namespace tidelot::run
