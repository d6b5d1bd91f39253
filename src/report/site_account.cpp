// SPDX-License-Identifier: Apache-2.0
// Nitrogen and money of a site and of all of them, as an accounting of the bay's load asks for.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/html.hpp"
#include "report/parts.hpp"
#include "report/site_figures.hpp"
#include "report/words.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/sites/accounting.hpp"

namespace tidelot::page {
namespace {

/// Shares of a load are small: three figures of a percentage.
std::string small_percent(double share) {
  const double percentage = 100.0 * share;
  const double size = std::abs(percentage);
  return fixed(percentage, size < 0.995 ? 3 : size < 9.95 ? 2 : 1) + " %";
}

std::string cost_words(const NitrogenCost& cost) {
  const auto whole = [](double value) { return fixed(value, value < 99.5 ? 1 : 0); };
  if (!cost.low && !cost.high) {
    return whole(cost.per_kg) + " per kg";
  }
  return fmt::format("{} per kg ({} to {}, by P90 and P10 of the nitrogen)", whole(cost.per_kg),
                     cost.low ? whole(*cost.low) : "?",
                     cost.high ? whole(*cost.high) : "no upper end");
}

std::string cost_cell(const Account& account, const MoneyPlan& money) {
  const auto cost = cost_of(account, money);
  return cost ? cost_words(*cost) : "no nitrogen, no cost of it";
}

std::string maybe(const std::optional<double>& value, Measure (*measure)(double), Units units) {
  return value ? in_line(measure(*value), units) : "none";
}

std::string stated(const std::string& words) { return words.empty() ? "not stated" : text(words); }

std::string months(double number) {
  return fmt::format("{} month{}", shortest(number), number == 1.0 ? "" : "s");
}

std::string load_words(const LoadPlan& load, Units units) {
  return fmt::format("{} of nitrogen a year; kind: {}; segment: {}; period: {}; baseline year: {}",
                     in_line(nitrogen(load.nitrogen_kg_per_year), units), stated(load.kind),
                     stated(load.segment), stated(load.period),
                     load.year ? fmt::format("{}", *load.year) : "not stated");
}

using Rows = std::vector<std::pair<std::string, std::string>>;

void add_load_rows(const Account& account, const Plan& plan, Rows& rows) {
  const LoadShares shares = shares_of(account.nitrogen_kg, account.season_days, *plan.load);
  rows.push_back({"Share of the load", small_percent(shares.of_load) + " of " +
                                           load_words(*plan.load, plan.report.units)});
  if (shares.of_goal) {
    rows.push_back({"Share of the goal", fmt::format("{} of the {} % of it to be taken out",
                                                     small_percent(*shares.of_goal),
                                                     shortest(*plan.load->goal_percent))});
  }
  if (account.season_days > 0) {
    rows.push_back({"Share of the season's load",
                    fmt::format("{} of the load of {} days", small_percent(shares.of_season_load),
                                account.season_days)});
  }
  if (shares.to_sea) {
    rows.push_back({"Reaches the sea anyway",
                    fmt::format("{} of a load, at {} in the bay; of this crop's nitrogen {} "
                                "would have",
                                percent(*shares.to_sea), months(*plan.load->residence_months),
                                in_line(nitrogen(*shares.to_sea_kg), plan.report.units))});
  }
}

std::vector<Column> load_columns(const Plan& plan) {
  std::vector<Column> columns{{"Site"},
                              {"Longline", true},
                              {"Hauled, fresh", true},
                              {"Net nitrogen, a season and year", true},
                              {"Per 100 m", true},
                              {"Gear box", true},
                              {"Site", true}};
  if (plan.load) {
    columns.push_back({"Of the load", true});
    if (plan.load->goal_percent) {
      columns.push_back({"Of the goal", true});
    }
    columns.push_back({"Of the season's load", true});
  }
  if (plan.money) {
    columns.push_back({"Cost of nitrogen", true});
  }
  return columns;
}

std::vector<std::string> load_row(const std::string& name, const Account& account,
                                  const Plan& plan) {
  const Units units = plan.report.units;
  const PerBase base = per_base(account);
  std::vector<std::string> row{name,
                               in_line(length(account.line_m, 0), units),
                               in_line(crop(account.hauled_t), units),
                               in_line(nitrogen(account.nitrogen_kg), units),
                               maybe(base.kg_per_100_m, nitrogen_per_100_m, units),
                               maybe(base.kg_per_gear_ha, nitrogen_per_ha, units),
                               maybe(base.kg_per_lease_ha, nitrogen_per_ha, units)};
  if (plan.load) {
    const LoadShares shares = shares_of(account.nitrogen_kg, account.season_days, *plan.load);
    row.push_back(small_percent(shares.of_load));
    if (shares.of_goal) {
      row.push_back(small_percent(*shares.of_goal));
    }
    row.push_back(account.season_days > 0 ? small_percent(shares.of_season_load) : "not known");
  }
  if (plan.money) {
    row.push_back(cost_cell(account, *plan.money));
  }
  return row;
}

std::string load_table(const ReportData& data) {
  const Plan& plan = *data.plan;
  const std::vector<Site>& sites = data.sites->ranked;
  Table table{"Estimate, not a credit: nitrogen of each site and of all at once",
              load_columns(plan),
              {},
              "load"};
  for (std::size_t i = 0; i < sites.size(); ++i) {
    table.rows.push_back(
        load_row(fmt::format("<a href=\"#site-{0}\">{0}</a>", plain_name(sites[i], i)),
                 account_of(sites[i], plan), plan));
  }
  table.rows.push_back(
      load_row("All at once", account_of_all(sites, plan, data.sites->set_spread), plan));
  return html(table);
}

std::vector<std::string> load_notes(const Plan& plan) {
  std::vector<std::string> notes;
  if (plan.load) {
    notes.push_back("The load: " + load_words(*plan.load, plan.report.units) + ".");
    if (const auto& residence = plan.load->residence_months) {
      notes.push_back(fmt::format(
          "Of a load {} reaches the sea without any crop, 1/(1 + 0.30 T) with T = {}; the "
          "rest the bay loses by itself (rate: Dettmann 2001, 10.2307/1353250, Nielsen et al. "
          "1995, 10.3354/meps119275, read in abstract; formula from memory).",
          percent(reaches_sea(*residence)), months(*residence)));
    }
  }
  if (plan.money) {
    notes.push_back(fmt::format(
        "Cost: ({} x metres of longline + {} for each site) over the net nitrogen of a year, in "
        "the plan's own currency.",
        shortest(plan.money->per_line_m), shortest(plan.money->per_year)));
  }
  notes.emplace_back(
      "Net of what was stocked; one season a year. Per hectare of gear box: with its anchor legs, "
      "without the margins. Not counted: crop that is lost, denitrification, what animals on the "
      "gear take up, and where the crop goes afterwards.");
  notes.push_back(text(published_removal()));
  return notes;
}

}  // namespace

std::string published_removal() {
  return "Published removal, for comparison: kelp 0.28 to 16.35 g of nitrogen per metre of line "
         "(10.3389/faquc.2023.1147524); 27, 10 and 5.7 g per metre, from 180, 67 and 38 kg per ha "
         "at 1.5 m between lines (Kim et al. 2015, arithmetic); 19 to 176 kg per ha by line "
         "density (Grebe et al. 2021). Bivalves 118 to 1,520 kg per ha and year (Rose et al. "
         "2015). Most were read in abstract. For a red alga per metre of longline none is known "
         "to this program.";
}

std::string site_account(const Site& site, const Plan& plan) {
  const Units units = plan.report.units;
  const Account account = account_of(site, plan);
  const PerBase base = per_base(account);
  Rows rows{{"Per 100 m of longline", maybe(base.kg_per_100_m, nitrogen_per_100_m, units)},
            {"Per area of gear box",
             base.kg_per_gear_ha ? in_line(nitrogen_per_ha(*base.kg_per_gear_ha), units) + ", of " +
                                       in_line(area(account.gear_ha), units) + " with anchor legs"
                                 : "none: one line"}};
  if (plan.load) {
    add_load_rows(account, plan, rows);
  }
  if (plan.money) {
    rows.push_back({"Cost of nitrogen", cost_cell(account, *plan.money)});
  }
  return pairs("Net nitrogen: estimate, not a credit", rows);
}

std::string load_section(const ReportData& data) {
  if (data.sites->ranked.empty()) {
    return "";
  }
  return element("section id=\"load\"", element("h2", "Nitrogen accounting") + load_table(data) +
                                            list(load_notes(*data.plan)));
}

}  // namespace tidelot::page
