// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <string>

#include "tidelot/sites/sites.hpp"

namespace tidelot {

/// Places sites, and finds the best one again where a rule or limit is another one. What does not
/// hang on the rules is worked out once, and of the cells only those are looked at again that
/// changed. All that it is made of outlives it, but for the struct of the maps.
class SiteSearch {
 public:
  SiteSearch(const Plan& plan, const Grid& grid, const ScoredMaps& maps,
             std::span<const ClosedLayer> closed, std::span<const NearLayer> near,
             std::span<const std::string> reason_names, Projector& grid_to_lonlat,
             const Geodesy& geodesy);
  ~SiteSearch();
  SiteSearch(const SiteSearch&) = delete;
  SiteSearch& operator=(const SiteSearch&) = delete;

  /// As place_sites(). Not while best() runs: that builds on what was worked out here.
  [[nodiscard]] SitesResult place();

  /// The same water under other rules. Sites have the same size, and cells that are open before
  /// and after have the same suitability.
  struct Other {
    const Plan& plan;
    const ScoredMaps& maps;
    std::span<const ClosedLayer> closed;
    std::span<const NearLayer> near;
    std::span<const std::size_t> changed;  ///< every cell of which maps.closed is another one
  };
  /// The first site of those that the search ranks when one is asked for, beside places that are
  /// held: as place_sites() finds it where own boxes are ranked there. held: corners in the grid's
  /// system, in order round each. May be called from several threads, each with a projector of its
  /// own.
  [[nodiscard]] std::optional<Site> best(const Other& other,
                                         std::span<const std::array<XY, 4>> held,
                                         Projector& grid_to_lonlat) const;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace tidelot
