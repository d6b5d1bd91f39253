// SPDX-License-Identifier: Apache-2.0
// What the members say of each site, and of their order.
#pragma once

#include <atomic>
#include <span>
#include <vector>

#include "run/area.hpp"
#include "run/tiles/tile_job.hpp"
#include "tidelot/sites/sites.hpp"

namespace tidelot::run {

/// One site's members, index = member.
struct SiteMembers {
  std::vector<double> yield_t, nitrogen_kg;  ///< net, with the crop's own draw-down
  std::vector<double> score;                 ///< as Site::score
  std::vector<double> suitability;           ///< mean over the covered cells
  std::vector<double> season_days;           ///< at the centre; empty where it is not known
  Deviates deviates;                         ///< of the layers, at the site's centre
};

/// The cells that the site covers are grown and scored in every member, each counting by the share
/// of it that is covered; the draw-down is that of each member's season at the centre.
[[nodiscard]] SiteMembers site_members(const Site& site, const Plan& plan, const TileJob& job,
                                       Worker& worker);

/// Quantiles and what drives them.
[[nodiscard]] SiteSpread spread_of(const SiteMembers& site, const Members& members);

/// How often each is the best, and which are not told apart. sites: in ranked order.
void add_order(std::span<const SiteMembers> sites, std::span<SiteSpread> spreads);

/// All of that for every site.
void add_site_spreads(SitesResult& sites, const Plan& plan, const Area& area, const TileJob& job,
                      int threads, const std::atomic<int>* stop_signal);

}  // namespace tidelot::run
