// SPDX-License-Identifier: Apache-2.0
#include "report/words/spread_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "report/site/site_figures.hpp"
#include "report/words/html.hpp"
#include "report/words/rank_words.hpp"
#include "report/words/say.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

/// "1.20 t" and "1.61 t" -> "1.20 to 1.61 t".
std::string joined(const std::string& low, const std::string& high) {
  const std::size_t unit = low.find(' ');
  const bool same = unit != std::string::npos && high.ends_with(low.substr(unit));
  return plain_say("spread.to", same ? low.substr(0, unit) : low, high);
}

Measure range(const Quantiles& q, Measure (*print)(double)) {
  const Measure low = print(q.p10);
  const Measure high = print(q.p90);
  return {joined(low.metric, high.metric), joined(low.us, high.us)};
}

void add_ties(std::span<const Site> ranked, std::vector<std::string>& notes) {
  for (std::size_t first = 0; first < ranked.size(); ++first) {
    std::size_t last = first;
    while (last + 1 < ranked.size() && ranked[last].spread->ties_with_next) {
      ++last;
    }
    if (last > first) {
      notes.push_back(plain_say("spread.sites_are_a_tie_each_ones",
                                ranks_in_row(ranked, first, last), percent(kToldApart)));
    }
    first = last;
  }
}

const InputShare* first_to_measure(const Site& site) {
  if (!site.spread) {
    return nullptr;
  }
  const auto& shares = site.spread->shares;
  const auto found = std::find_if(shares.begin(), shares.end(), [&](const InputShare& one) {
    return one.measured && one.nitrogen > site.spread->shares_by_chance;
  });
  return found == shares.end() ? nullptr : &*found;
}

/// A bar from P10 to P90 with marks at P50 and at the best estimate, on a scale from 0 (or the
/// lowest) to the highest; drawn in ink alone, so that it copies.
std::string bar(const Quantiles& q, double best, const std::string& label) {
  const double low = std::min({0.0, q.p10, best});
  const double high = std::max({q.p90, best, low + 1e-9});
  const auto x = [&](double value) { return fixed(4.0 + 192.0 * (value - low) / (high - low), 1); };
  return fmt::format(
      "<svg class=\"spread\" viewBox=\"0 0 200 16\" role=\"img\" aria-label=\"{}\">"
      "<line x1=\"4\" x2=\"196\" y1=\"8\" y2=\"8\"/><rect x=\"{}\" y=\"4\" width=\"{}\" "
      "height=\"8\"/><line class=\"middle\" x1=\"{}\" x2=\"{}\" y1=\"2\" y2=\"14\"/>"
      "<circle cx=\"{}\" cy=\"8\" r=\"3\"/></svg>",
      label, x(q.p10), fixed(192.0 * (q.p90 - q.p10) / (high - low), 1), x(q.p50), x(q.p50),
      x(best));
}

std::vector<std::string> quantile_row(const std::string& name, const Quantiles& q, double best,
                                      Measure (*print)(double), Units units) {
  return {name,
          in_line(print(q.p10), units),
          in_line(print(q.p50), units),
          in_line(print(q.p90), units),
          in_line(print(best), units),
          bar(q, best, fmt::format("{}: {}", name, range_in_line(q, print, units)))};
}

Measure plain_score(double value) { return {fixed(value, 2), fixed(value, 2)}; }

std::string chances(const Site& site) {
  const SiteSpread& spread = *site.spread;
  std::string out = plain_say("spread.the_crop_is_lost_less", percent(spread.lost));
  if (is_ranked(site)) {
    out += " " + plain_say("spread.of_the_sites_ranked_here", percent(spread.best),
                           percent(spread.in_three));
  }
  return out;
}

/// "mu_max_per_day of the crop 33 %, light in the water 11 %"; "" where nothing is told from
/// chance.
std::string shares_of(const SiteSpread& spread, double InputShare::*of) {
  std::vector<InputShare> told;
  std::copy_if(spread.shares.begin(), spread.shares.end(), std::back_inserter(told),
               [&](const InputShare& one) { return one.*of > spread.shares_by_chance; });
  std::stable_sort(told.begin(), told.end(),
                   [&](const InputShare& a, const InputShare& b) { return a.*of > b.*of; });
  std::vector<std::string> words;
  for (const InputShare& one : told) {
    const std::string input = text(translated(one.input));
    words.push_back(one.measured ? fmt::format("{} {}", input, percent(one.*of))
                                 : plain_say("spread.of_the_crop", input, percent(one.*of)));
  }
  return fmt::format("{}", fmt::join(words, ", "));
}

std::string drivers(const Site& site) {
  const std::string yield = shares_of(*site.spread, &InputShare::yield);
  const std::string nitrogen_too = shares_of(*site.spread, &InputShare::nitrogen);
  const InputShare* first = first_to_measure(site);
  return (yield.empty() ? "" : plain_say("spread.what_drives_the_spread_of", yield) + " ") +
         (nitrogen_too.empty() ? "" : plain_say("spread.of_the_nitrogen", nitrogen_too) + " ") +
         (first == nullptr
              ? label("spread.no_input_that_can_be_measured")
              : plain_say("spread.measure_here_first_better_knowledge", text(first->input)));
}

}  // namespace

std::string range_in_line(const Quantiles& q, Measure (*print)(double), Units units) {
  return in_line(range(q, print), units);
}

std::string yield_range_cell(const Site& site, Units units) {
  return site.spread ? stacked(range(site.spread->yield_t, crop), units) : "";
}

std::string nitrogen_range_cell(const Site& site, Units units) {
  return site.spread ? stacked(range(site.spread->nitrogen_kg, nitrogen), units) : "";
}

std::string spread_basis(const Plan& plan) {
  const int draws = plan.uncertainty.draws;
  if (draws == 0) {
    return label("spread.no_spread_was_computed_uncertainty_draws");
  }
  return plain_say("spread.p10_to_p90_of_members_seed", draws, plan.uncertainty.seed);
}

std::string measure_first(const Site& site) {
  const InputShare* first = first_to_measure(site);
  return first == nullptr ? "" : first->input;
}

std::vector<std::string> tie_notes(std::span<const Site> ranked) {
  if (ranked.empty() || !ranked.front().spread) {
    return close_notes(ranked);
  }
  std::vector<std::string> notes;
  add_ties(ranked, notes);
  return notes;
}

std::vector<std::string> measure_note(std::span<const Site> ranked) {
  if (ranked.empty() || !ranked.front().spread) {
    return {};  // spread_basis says why there is no spread
  }
  const InputShare* first = first_to_measure(ranked.front());
  return {first == nullptr ? label("spread.nothing_to_measure_first")
                           : plain_say("spread.measure_first_at_site_1", translated(first->input),
                                       percent(first->nitrogen))};
}

std::vector<std::string> spread_notes(std::span<const Site> ranked) {
  std::vector<std::string> notes = tie_notes(ranked);
  for (std::string& note : measure_note(ranked)) {
    notes.push_back(std::move(note));
  }
  return notes;
}

std::vector<std::string> other_notes(const SitesResult& sites) {
  const std::vector<std::string> told = [&] {
    const Speaking english(*Labels::built_in());  // as the run notes them
    return spread_notes(sites.ranked);
  }();
  std::vector<std::string> notes;
  std::copy_if(sites.notes.begin(), sites.notes.end(), std::back_inserter(notes),
               [&](const std::string& note) {
                 return std::find(told.begin(), told.end(), note) == told.end();
               });
  return notes;
}

std::string spread_section(const Site& site, const Plan& plan) {
  if (!site.spread) {
    return element("p class=\"note\"", text(spread_basis(plan)) + ".");
  }
  const Units units = plan.report.units;
  const SiteSpread& spread = *site.spread;
  Table table{label("spread.how_sure_the_same_season"),
              {{""},
               {"P10", true},
               {"P50", true},
               {"P90", true},
               {label("spread.best_estimate"), true},
               {""}},
              {},
              "how-sure"};
  table.rows = {
      quantile_row(label("spread.fresh_yield"), spread.yield_t, site.yield_t, crop, units),
      quantile_row(label("spread.nitrogen_carried_off"), spread.nitrogen_kg, site.nitrogen_kg,
                   nitrogen, units),
      quantile_row(label("spread.suitability"), spread.suitability, site.suitability, plain_score,
                   Units::metric)};
  return html(table) + element("p class=\"note\"", text(spread_basis(plan)) + ". " +
                                                       label("spread.the_bar_runs_from_p10") + " " +
                                                       chances(site) + " " + drivers(site));
}

}  // namespace tidelot::page
