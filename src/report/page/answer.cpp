// SPDX-License-Identifier: Apache-2.0
// The summary at the top: sentences made from the figures, each rounded to what is known of it.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "report/maps/known_digits.hpp"
#include "report/parts.hpp"
#include "report/site/site_figures.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "report/words/spread_words.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/criteria/reason_codes.hpp"
#include "tidelot/sites/accounting.hpp"

namespace tidelot::page {
namespace {

constexpr std::size_t kBest = 3;

std::optional<Band> band_of(const std::optional<SiteSpread>& spread, Quantiles SiteSpread::*of) {
  return spread ? std::optional(Band{((*spread).*of).p10, ((*spread).*of).p90}) : std::nullopt;
}

std::span<const Site> best_of(const SitesResult& sites) {
  return std::span(sites.ranked).first(std::min(kBest, sites.ranked.size()));
}

/// "a longline site of 1.20 ha (2.97 acres)".
std::string wanted(const Plan& plan) {
  return plain_say(plan.sites.line ? "answer.a_line_of" : "answer.a_site_of",
                   in_line(area(plan.sites.area_ha), plan.report.units));
}

std::string water_sentence(const ReportData& data) {
  const Units units = data.plan->report.units;
  const RunCounts& counts = data.counts;
  const double closed = counts.water_ha > 0.0 ? counts.closed_ha / counts.water_ha : 0.0;
  return say("answer.of_the_water", in_line(area(counts.water_ha), units), percent(closed),
             in_line(area(counts.open_ha), units));
}

std::string asked(const ReportData& data) {
  const Plan& plan = *data.plan;
  return element("p", say("answer.asked", text(wanted(plan)), text(plan.crop.title)) + " " +
                          water_sentence(data));
}

/// The reason that most cells are closed or held back by; kNothing when there is none.
std::size_t most_frequent(const std::vector<std::size_t>& counts) {
  std::size_t most = reason::kNothing, cells = 0;
  for (std::size_t code = most + 1; code < counts.size(); ++code) {
    if (counts[code] > cells && !reason::says_unknown(code)) {
      most = code;
      cells = counts[code];
    }
  }
  return most;
}

std::string main_reason(const ReportData& data) {
  const std::size_t code = most_frequent(data.counts.by_reason);
  if (code == reason::kNothing || code >= data.reason_names.size()) {
    return "";
  }
  return " " + say("answer.held_back", text(translated(data.reason_names[code])));
}

std::vector<std::string> escaped(const std::vector<std::string>& texts) {
  std::vector<std::string> all;
  all.reserve(texts.size());
  for (const std::string& each : texts) {
    all.push_back(text(translated(each)));
  }
  return all;
}

std::string maybe_list(const std::vector<std::string>& items) {
  return items.empty() ? "" : list(items);
}

std::string none_found(const ReportData& data) {
  return element("p class=\"answer\"",
                 element("b", say("answer.none_found", text(wanted(*data.plan))))) +
         element("p", water_sentence(data) + main_reason(data)) +
         maybe_list(escaped(other_notes(*data.sites)));
}

// --- the best places -----------------------------------------------------------------------------

/// What speaks for it, in a sentence.
std::string why_here(const Site& site, const Plan& plan) {
  const Units units = plan.report.units;
  std::string words =
      say("answer.suits", fixed(site.suitability, 2), text(translated(site.limited_by)));
  if (site.landing_km) {
    words +=
        "; " + say("answer.from_the_landing", in_line(distance(*site.landing_km * 1000.0), units));
  }
  if (const RuleDistance* rule = nearest_closed(site, plan)) {
    words += "; " + say("answer.from_a_closed_area", in_line(distance(rule->distance_m), units),
                        text(rule_name(*rule, plan)));
  }
  return words + ".";
}

std::string place(const Site& site, const Plan& plan) {
  const Units units = plan.report.units;
  const std::string link =
      fmt::format("<a href=\"#site-{}\">{}</a>", plain_name(site), text(called(site)));
  const auto bold = [](const std::string& words) { return element("b", text(words)); };
  return say("answer.place", link, decimal_minutes(site.centre),
             dates(site.outplant, site.last_haul), site.harvests,
             bold(known_crop(site.yield_t, band_of(site.spread, &SiteSpread::yield_t), units)),
             bold(known_nitrogen(site.nitrogen_kg, band_of(site.spread, &SiteSpread::nitrogen_kg),
                                 units))) +
         " " + why_here(site, plan);
}

std::string how_sure(const Plan& plan) {
  const int draws = plan.uncertainty.draws;
  return draws > 0 ? say("answer.how_sure", draws) : say("answer.no_spread");
}

std::string best_places(const ReportData& data) {
  const std::span<const Site> best = best_of(*data.sites);
  std::string items;
  for (const Site& site : best) {
    items += element("li", place(site, *data.plan));
  }
  return element("h3", say(best.size() > 1 ? "answer.best_places" : "answer.best_place")) +
         element("ol class=\"best\"", items) + element("p", how_sure(*data.plan)) +
         maybe_list(escaped(tie_notes(data.sites->ranked)));
}

// --- what the nitrogen means
// -----------------------------------------------------------------------

std::optional<Band> band_of(const Account& all, double factor) {
  return all.nitrogen_p10_kg && all.nitrogen_p90_kg
             ? std::optional(Band{*all.nitrogen_p10_kg * factor, *all.nitrogen_p90_kg * factor})
             : std::nullopt;
}

std::string share_words(const Account& all, const Plan& plan) {
  const LoadPlan& load = *plan.load;
  const double one = 1.0 / load.nitrogen_kg_per_year;
  std::string words =
      say("answer.of_the_load", known_percent(all.nitrogen_kg * one, band_of(all, one)),
          in_line(nitrogen(load.nitrogen_kg_per_year), plan.report.units),
          load.kind.empty() ? say("account.not_stated") : text(load.kind));
  const LoadShares shares = shares_of(all.nitrogen_kg, all.season_days, load);
  if (shares.of_goal) {
    const double goal = *shares.of_goal / all.nitrogen_kg;
    words += " " + say("answer.of_the_goal", known_percent(*shares.of_goal, band_of(all, goal)),
                       shortest(*load.goal_percent));
  }
  return words;
}

std::string nitrogen_means(const ReportData& data) {
  const Plan& plan = *data.plan;
  const Account all = account_of_all(data.sites->ranked, data.sites->set_spread);
  const std::string carried =
      text(known_nitrogen(all.nitrogen_kg, band_of(all, 1.0), plan.report.units));
  const std::string first = all.sites == 1 ? say("answer.one_carries", carried)
                                           : say("answer.all_carry", all.sites, carried);
  const bool compared = plan.load && all.nitrogen_kg > 0.0;
  return element("h3", say("answer.what_it_means")) +
         element("p", first + " " + (compared ? share_words(all, plan) : say("answer.no_load")) +
                          " " + say("answer.not_a_credit"));
}

// --- what is not known, and what to look at
// ----------------------------------------------------------

/// "Site 1: ..." of the best places, each text once.
void add_of_sites(std::span<const Site> best, std::vector<std::string> Site::*of,
                  std::vector<std::string>& items) {
  for (const Site& site : best) {
    for (const std::string& each : site.*of) {
      items.push_back(say("answer.at_site", text(called(site)), text(translated(each))));
    }
  }
}

/// Sites that the search found; the rest are own boxes.
std::size_t found_in(const std::vector<Site>& sites) {
  return static_cast<std::size_t>(
      std::count_if(sites.begin(), sites.end(), [](const Site& site) { return site.own == 0; }));
}

std::string not_known(const ReportData& data) {
  const RunCounts& counts = data.counts;
  std::vector<std::string> items;
  if (counts.unknown > 0 && counts.cells > 0) {
    items.push_back(say("answer.no_data", percent(static_cast<double>(counts.unknown) /
                                                  static_cast<double>(counts.cells))));
  }
  if (const std::size_t apart = found_in(data.sites->apart); apart > 0) {
    items.push_back(say("answer.apart", apart));
  }
  add_of_sites(best_of(*data.sites), &Site::gaps, items);
  for (const std::string& same : same_everywhere(*data.plan)) {
    items.push_back(text(same));
  }
  items.push_back(say("answer.not_varied"));
  return element("h3", say("answer.what_is_not_known")) + list(items);
}

std::string to_check(const ReportData& data) {
  const std::span<const Site> best = best_of(*data.sites);
  std::vector<std::string> items = escaped(measure_note(data.sites->ranked));
  add_of_sites(best, &Site::cautions, items);
  items.push_back(say("answer.check_bottom"));
  items.push_back(say("answer.check_life"));
  const bool visited = std::any_of(best.begin(), best.end(),
                                   [](const Site& site) { return site.field.has_value(); });
  items.push_back(say(visited ? "answer.some_visited" : "answer.none_visited"));
  return element("h3", say("answer.what_to_check")) + list(items);
}

}  // namespace

std::string answer(const ReportData& data) {
  const SitesResult& sites = *data.sites;
  if (sites.ranked.empty()) {
    return none_found(data);
  }
  const std::size_t found = found_in(sites.ranked);
  const std::string what = text(wanted(*data.plan));
  const std::string headline = found == 0   ? say("answer.none_found", what)
                               : found == 1 ? say("answer.one_found", what)
                                            : say("answer.found", found, what);
  return element("p class=\"answer\"", element("b", headline)) + asked(data) +
         maybe_list(escaped(other_notes(sites))) +
         element("div class=\"summary\"", element("div", best_places(data) + nitrogen_means(data)) +
                                              element("div", not_known(data) + to_check(data)));
}

}  // namespace tidelot::page
