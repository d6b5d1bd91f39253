// SPDX-License-Identifier: Apache-2.0
#include "sites/notes.hpp"

#include <fmt/format.h>

#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

std::string cells(std::size_t count) {
  return count == 1 ? std::string("1 cell is") : fmt::format("{} cells are", count);
}

std::string size_text(const SiteSize& size) {
  return fmt::format("{} x {} m", fixed(size.length_m, 1), fixed(size.width_m, 1));
}

std::string headline(const Plan& plan, std::size_t found) {
  return found == 0
             ? std::string("No site was found.")
             : fmt::format("{} of the {} sites asked for were found.", found, plan.sites.count);
}

void add_ground(const Plan& plan, const SiteSize& size, const GroundCount& ground,
                std::vector<std::string>& notes) {
  if (ground.open == 0) {
    notes.emplace_back("No cell is open and known: all of the water is closed or not known.");
  } else {
    notes.push_back(fmt::format(
        "{} open and known; {} of suitability {} or better and shallow enough for the anchor legs.",
        cells(ground.open), cells(ground.good), shortest(plan.sites.min_suitability)));
  }
  if (ground.too_deep > 0) {
    const double deepest = (size.length_m - 2.0 * plan.farm.margin_m) / (2.0 * plan.farm.scope);
    notes.push_back(fmt::format(
        "{} good enough but too deep: from {} m at high water the anchor legs leave no line in a "
        "site of {}.",
        cells(ground.too_deep), fixed(deepest, 1), size_text(size)));
  }
  if (ground.unknown > 0) {
    notes.push_back(fmt::format("{} not known well enough to be scored.", cells(ground.unknown)));
  }
}

void add_room(const Plan& plan, const SiteSize& size, const SitesResult& result,
              const Refusals& refusals, std::vector<std::string>& notes) {
  if (result.eligible_cells > 0 && result.fitting_places == 0) {
    notes.push_back(fmt::format("The good water has no room for {} at any of the angles tried.",
                                size_text(size)));
  }
  if (refusals.by_setback > 0) {
    notes.push_back(fmt::format(
        "A site's edge would come within the setback of a closed area at {} of the {} places that "
        "fit by their cells.",
        refusals.by_setback, result.fitting_places));
  }
  if (refusals.by_near > 0) {
    notes.push_back(fmt::format(
        "More than the plan's [[near]] allows would lie near a site at {} of the {} places that "
        "fit by their cells.",
        refusals.by_near, result.fitting_places));
  }
  if (refusals.by_gap > 0) {
    notes.push_back(fmt::format("The rest lies nearer than {} m to a ranked site.",
                                shortest(plan.sites.gap_m)));
  }
}

}  // namespace

std::vector<std::string> notes_on(const Plan& plan, const SiteSize& size, const GroundCount& ground,
                                  const SitesResult& result, const Refusals& refusals) {
  std::vector<std::string> notes;
  if (static_cast<int>(result.ranked.size()) >= plan.sites.count) {
    return notes;
  }
  notes.push_back(headline(plan, result.ranked.size()));
  if (layout_of(size, 0.0, plan.farm, plan.sites.line).lines == 0) {
    notes.push_back(fmt::format("A site of {} has no room for a line inside margins of {} m.",
                                size_text(size), shortest(plan.farm.margin_m)));
    return notes;
  }
  add_ground(plan, size, ground, notes);
  add_room(plan, size, result, refusals, notes);
  return notes;
}

void add_own_notes(std::span<const Site> own, SitesResult& result) {
  std::vector<std::string> notes;
  for (const Site& site : result.ranked) {
    if (site.own > 0) {
      notes.push_back(fmt::format("Your own box {} ranks {} of {}.", site.name, site.rank,
                                  result.ranked.size()));
    }
  }
  for (const Site& site : own) {
    for (const std::string& phrase : site.wrong) {
      notes.push_back(fmt::format("Your own box {} is listed apart: {}.", site.name, phrase));
    }
  }
  result.notes.insert(result.notes.begin(), notes.begin(), notes.end());
}

}  // namespace tidelot
