// SPDX-License-Identifier: Apache-2.0
#include "run/sites/site_spread.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "run/members/tile_spread.hpp"
#include "run/sites/site_cells.hpp"
#include "run/sites/site_centre.hpp"
#include "run/sites/site_farm.hpp"
#include "run/tiles/grid_parts.hpp"
#include "run/workers.hpp"
#include "tidelot/core/first_order.hpp"

namespace tidelot::run {
namespace {

/// Grown cells of a tile that a site covers, each by the share of it.
struct CoveredCells {
  std::vector<std::uint32_t> which;
  std::vector<double> share;
};

CoveredCells covered_cells(const Site& site, const Grid& grid, const Tile& tile,
                           std::span<const TileCell> grown) {
  std::vector<double> shares(tile.size(), 0.0);
  for_each_cell_under(site, grid, tile, [&](std::size_t i, double share) { shares[i] = share; });
  CoveredCells out;
  for (std::uint32_t k = 0; k < grown.size(); ++k) {
    const double share =
        shares[static_cast<std::size_t>(grown[k].row) * static_cast<std::size_t>(tile.cols) +
               static_cast<std::size_t>(grown[k].col)];
    if (share > 0.0) {
      out.which.push_back(k);
      out.share.push_back(share);
    }
  }
  return out;
}

/// Means per metre of line over a site's cells, member by member, and their scores.
struct CellMeans {
  std::vector<double> yield_kg_per_m, nitrogen_g_per_m, score, suitability;
};

CellMeans means_of(const Tile& tile, TileEvidence evidence, const Site& site, const TileJob& job,
                   Worker& worker) {
  const Members& members = *job.members;
  CellMeans out;
  for (auto* values : {&out.yield_kg_per_m, &out.nitrogen_g_per_m, &out.score, &out.suitability}) {
    values->assign(members.size(), 0.0);
  }
  const std::vector<TileCell> cells = grown_cells(tile, evidence);
  const auto [covered, shares] = covered_cells(site, *job.grid, tile, cells);
  if (covered.empty()) {
    return out;
  }
  const std::vector<XY> places = some_of(places_of(*job.grid, tile, cells), covered);
  evidence.grown = some_of(evidence.grown, covered);
  const MemberSeasons seasons =
      grow_members(subset(evidence.forcing.kernel, covered), places, members, *worker.draws);
  const Deviates deviates = worker.draws->at(places);
  const MemberScorer scorer(job, members);
  const double area = std::accumulate(shares.begin(), shares.end(), 0.0);
  double scored = 0.0;
  for (std::size_t k = 0; k < covered.size(); ++k) {
    const std::size_t first = seasons.at(k, 0);
    const std::vector<float> suitability =
        scorer(evidence.cells[evidence.grown[k]],
               {std::span(seasons.yield_g_per_m).subspan(first, members.size()),
                std::span(seasons.state).subspan(first, members.size())},
               deviates, k)
            .suitability;
    scored += suitability.empty() ? 0.0 : shares[k];
    for (std::size_t m = 0; m < members.size(); ++m) {
      const double yield = seasons.yield_g_per_m[seasons.at(k, m)] / 1000.0;
      out.yield_kg_per_m[m] += yield * shares[k] / area;
      out.nitrogen_g_per_m[m] += seasons.nitrogen_g_per_m[seasons.at(k, m)] * shares[k] / area;
      if (!suitability.empty()) {
        out.score[m] += suitability[m] * std::max(0.0, yield) * shares[k];
        out.suitability[m] += suitability[m] * shares[k];
      }
    }
  }
  for (double& value : out.suitability) {
    value = scored > 0.0 ? value / scored : 0.0;
  }
  return out;
}

/// A member's season at the site's centre: one line alone, and with what the farm takes up.
class CentreMembers {
 public:
  CentreMembers(const Site& site, const Plan& plan, const TileJob& job, Worker& worker)
      : members_(*job.members), farm_(plan.farm), layout_(site.layout) {
    const auto here = centre_layers(site, *worker.layers);
    if (here && site.draw_down) {
      water_ = CentreWater{cell_forcing(*here, site.centre.lat, *job.season), site.centre.lat};
    }
  }

  /// The site's figures from the members' means over its cells; days: of the member's season,
  /// NaN where it is not known.
  [[nodiscard]] SiteFigures figures(PerMetre mean, const Deviates& deviates, std::size_t member,
                                    double& days_of_season) const {
    const SeasonSetup& setup = members_.setup(member);
    const Stocked put_out = members_.stocked(member);
    SeasonResult alone, farm;
    days_of_season = std::numeric_limits<double>::quiet_NaN();
    if (water_) {
      TileForcing forcing = water_->forcing;
      MemberWater(water_->forcing.kernel, members_, deviates).put(member, forcing.kernel);
      forcing.windows = put_windows(forcing.kernel, setup);
      const auto days = day_forcing(forcing, 0, water_->latitude_deg, setup);
      days_of_season = static_cast<double>(days.size());
      if (!days.empty()) {
        alone = grow_season(days, setup.husbandry(), setup.constants());
        farm = grow_farm(days, setup.husbandry(), setup.constants(),
                         farm_shape(layout_, farm_, setup.constants()))
                   .per_m;
      }
    }
    return site_figures(mean, layout_.line_m, {alone, put_out}, {farm, put_out});
  }

 private:
  const Members& members_;
  const FarmPlan& farm_;
  const Layout& layout_;
  std::optional<CentreWater> water_;
};

/// Values of one thing, all members.
Quantiles quantiles(const std::vector<double>& values) {
  std::vector<float> narrow(values.begin(), values.end());
  return quantiles_of(narrow);
}

double share(std::size_t count, std::size_t of) {
  return static_cast<double>(count) / static_cast<double>(of);
}

/// Ranked sites with higher scores in one member; equal ones share a place.
std::size_t places_above(std::span<const SiteMembers> sites, std::size_t site, std::size_t member) {
  return static_cast<std::size_t>(std::count_if(
      sites.begin(), sites.end(),
      [&](const SiteMembers& other) { return other.score[member] > sites[site].score[member]; }));
}

/// All at once: the members' sums, each changed as the best estimate's is by the neighbours.
SetSpread set_spread(const std::vector<Site>& sites, std::span<const SiteMembers> members) {
  const std::size_t count = members.empty() ? 0 : members[0].yield_t.size();
  std::vector<double> yield(count, 0.0), nitrogen(count, 0.0);
  const auto ratio = [](double with, double without) {
    return without > 0.0 ? with / without : 1.0;
  };
  for (std::size_t s = 0; s < members.size(); ++s) {
    const auto& all = sites[s].with_neighbours;
    const double y = all ? ratio(all->yield_t, sites[s].yield_t) : 1.0;
    const double n = all ? ratio(all->nitrogen_kg, sites[s].nitrogen_kg) : 1.0;
    for (std::size_t m = 0; m < count; ++m) {
      yield[m] += y * members[s].yield_t[m];
      nitrogen[m] += n * members[s].nitrogen_kg[m];
    }
  }
  return {quantiles(yield), quantiles(nitrogen), {yield, nitrogen, {}}};
}

}  // namespace

SiteMembers site_members(const Site& site, const Plan& plan, const TileJob& job, Worker& worker) {
  const Tile tile = tile_around(*job.grid, site);
  CellMeans means = means_of(tile, evidence_of(tile, job, worker), site, job, worker);
  const CentreMembers centre(site, plan, job, worker);
  SiteMembers out;
  out.deviates = worker.draws->at({&site.centre_xy, 1});
  for (std::size_t m = 0; m < job.members->size(); ++m) {
    double season_days = 0.0;
    const SiteFigures figures = centre.figures({means.yield_kg_per_m[m], means.nitrogen_g_per_m[m]},
                                               out.deviates, m, season_days);
    if (!std::isnan(season_days)) {
      out.season_days.push_back(season_days);
    }
    out.yield_t.push_back(figures.yield_t);
    out.nitrogen_kg.push_back(figures.nitrogen_kg);
  }
  out.score = std::move(means.score);
  out.suitability = std::move(means.suitability);
  return out;
}

SiteSpread spread_of(const SiteMembers& site, const Members& members) {
  SiteSpread out;
  out.yield_t = quantiles(site.yield_t);
  out.nitrogen_kg = quantiles(site.nitrogen_kg);
  out.suitability = quantiles(site.suitability);
  const auto lost =
      std::count_if(site.yield_t.begin(), site.yield_t.end(), [](double t) { return t < 0.0; });
  out.lost = share(static_cast<std::size_t>(lost), site.yield_t.size());
  out.shares_by_chance = chance_share(members.size());
  out.members = {site.yield_t, site.nitrogen_kg, site.season_days};
  constexpr std::string_view kCropKey = "crop.";
  const auto add = [&](const std::string& name, bool measured, std::span<const double> drawn) {
    const InputShare one{name, measured, first_order_share(drawn, site.yield_t),
                         first_order_share(drawn, site.nitrogen_kg)};
    if (std::max(one.yield, one.nitrogen) > out.shares_by_chance) {
      out.shares.push_back(one);
    }
  };
  for (std::size_t layer = 0; layer < kErrorLayers; ++layer) {
    const auto& z = site.deviates.z[layer];
    const std::vector<double> drawn(z.begin(), z.end());
    const LayerError& error = members.inputs().layers[layer];
    add(error.name, true, drawn);
    out.layers.push_back({error.name, error.basis, error.judged, drawn});
  }
  for (std::size_t i = 0; i < members.inputs().constants.size(); ++i) {
    add(members.inputs().constants[i].key.substr(kCropKey.size()), false, members.constant(i));
  }
  std::stable_sort(
      out.shares.begin(), out.shares.end(),
      [](const InputShare& a, const InputShare& b) { return a.nitrogen > b.nitrogen; });
  return out;
}

void add_order(std::span<const SiteMembers> sites, std::span<SiteSpread> spreads) {
  constexpr std::size_t kThree = 3;
  for (std::size_t s = 0; s < sites.size(); ++s) {
    const std::size_t members = sites[s].score.size();
    std::size_t best = 0, in_three = 0;
    for (std::size_t m = 0; m < members; ++m) {
      const std::size_t place = places_above(sites, s, m);
      best += place == 0 ? 1 : 0;
      in_three += place < kThree ? 1 : 0;
    }
    spreads[s].best = share(best, members);
    spreads[s].in_three = share(in_three, members);
    if (s + 1 < sites.size()) {
      spreads[s].above_next = chance_above(sites[s].score, sites[s + 1].score);
      spreads[s].ties_with_next = !told_above(spreads[s].above_next);
    }
  }
}

void add_site_spreads(SitesResult& sites, const Plan& plan, const Area& area, const TileJob& job,
                      int threads, const std::atomic<int>* stop_signal) {
  std::vector<Site*> all;
  for (std::vector<Site>* list : {&sites.ranked, &sites.apart}) {
    for (Site& site : *list) {
      all.push_back(&site);
    }
  }
  if (all.empty()) {
    return;
  }
  const int count = std::min(workers_for(threads), static_cast<int>(all.size()));
  std::vector<Worker> workers = workers_of(plan, area, job, count);
  std::vector<SiteMembers> members(all.size());
  for_each(all.size(), count, stop_signal, [&](std::size_t i, int worker) {
    members[i] = site_members(*all[i], plan, job, workers[static_cast<std::size_t>(worker)]);
  });
  std::vector<SiteSpread> spreads;
  spreads.reserve(members.size());
  for (const SiteMembers& one : members) {
    spreads.push_back(spread_of(one, *job.members));
  }
  const std::size_t ranked = sites.ranked.size();
  add_order(std::span(members).first(ranked), std::span(spreads).first(ranked));
  for (std::size_t i = 0; i < all.size(); ++i) {
    all[i]->spread = std::move(spreads[i]);
  }
  sites.set_spread = set_spread(sites.ranked, std::span(members).first(ranked));
}

}  // namespace tidelot::run
