// SPDX-License-Identifier: Apache-2.0
// Nitrogen and money of a site and of all of them, as an accounting of the bay's load asks for.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/parts.hpp"
#include "report/site/site_figures.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/sites/accounting.hpp"

namespace tidelot::page {
namespace {

/// Shares of a load are small: three figures of a percentage.
std::string small_percent(double share) {
  const double percentage = 100.0 * share;
  const double size = std::abs(percentage);
  return plain_say("words.percent", fixed(percentage, size < 0.995 ? 3 : size < 9.95 ? 2 : 1));
}

std::string cost_words(const NitrogenCost& cost) {
  const auto whole = [](double value) { return fixed(value, value < 99.5 ? 1 : 0); };
  if (!cost.low && !cost.high) {
    return plain_say("account.per_kg", whole(cost.per_kg));
  }
  return plain_say("account.per_kg_to_by_p90", whole(cost.per_kg),
                   cost.low ? whole(*cost.low) : "?",
                   cost.high ? whole(*cost.high) : label("account.no_upper_end"));
}

std::string cost_cell(const Account& account, const MoneyPlan& money) {
  const auto cost = cost_of(account, money);
  return cost ? cost_words(*cost) : label("account.no_nitrogen_no_cost_of");
}

std::string maybe(const std::optional<double>& value, Measure (*measure)(double), Units units) {
  return value ? in_line(measure(*value), units) : label("account.none");
}

std::string stated(const std::string& words) {
  return words.empty() ? label("account.not_stated") : text(words);
}

std::string months(double number) {
  return number == 1.0 ? label("account.1_month") : plain_say("account.months", shortest(number));
}

std::string load_words(const LoadPlan& load, Units units) {
  return plain_say("account.of_nitrogen_a_year_kind_segment",
                   in_line(nitrogen(load.nitrogen_kg_per_year), units), stated(load.kind),
                   stated(load.segment), stated(load.period),
                   load.year ? fmt::format("{}", *load.year) : label("account.not_stated"));
}

using Rows = std::vector<std::pair<std::string, std::string>>;

void add_load_rows(const Account& account, const Plan& plan, Rows& rows) {
  const LoadShares shares = shares_of(account.nitrogen_kg, account.season_days, *plan.load);
  rows.push_back(
      {label("account.share_of_the_load"), plain_say("account.of", small_percent(shares.of_load),
                                                     load_words(*plan.load, plan.report.units))});
  if (shares.of_goal) {
    rows.push_back({label("account.share_of_the_goal"),
                    plain_say("account.of_the_of_it_to", small_percent(*shares.of_goal),
                              shortest(*plan.load->goal_percent))});
  }
  if (account.season_days > 0) {
    rows.push_back({label("account.share_of_the_seasons_load"),
                    plain_say("account.of_the_load_of_days", small_percent(shares.of_season_load),
                              account.season_days)});
  }
  if (shares.to_sea) {
    rows.push_back({label("account.reaches_the_sea_anyway"),
                    plain_say("account.of_a_load_at_in", percent(*shares.to_sea),
                              months(*plan.load->residence_months),
                              in_line(nitrogen(*shares.to_sea_kg), plan.report.units))});
  }
}

std::vector<Column> load_columns(const Plan& plan) {
  std::vector<Column> columns{{label("account.site")},
                              {label("account.longline"), true},
                              {label("account.hauled_fresh"), true},
                              {label("account.net_nitrogen_a_season_and_year"), true},
                              {label("account.per_100_m"), true},
                              {label("account.gear_box"), true},
                              {label("account.site"), true}};
  if (plan.load) {
    columns.push_back({label("account.of_the_load"), true});
    if (plan.load->goal_percent) {
      columns.push_back({label("account.of_the_goal"), true});
    }
    columns.push_back({label("account.of_the_seasons_load"), true});
  }
  if (plan.money) {
    columns.push_back({label("account.cost_of_nitrogen"), true});
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
    row.push_back(account.season_days > 0 ? small_percent(shares.of_season_load)
                                          : label("words.not_known"));
  }
  if (plan.money) {
    row.push_back(cost_cell(account, *plan.money));
  }
  return row;
}

std::string load_table(const ReportData& data) {
  const Plan& plan = *data.plan;
  const std::vector<Site>& sites = data.sites->ranked;
  Table table{label("account.estimate_not_a_credit_nitrogen"), load_columns(plan), {}, "load"};
  for (const Site& site : sites) {
    table.rows.push_back(load_row(fmt::format("<a href=\"#site-{0}\">{0}</a>", plain_name(site)),
                                  account_of(site), plan));
  }
  table.rows.push_back(
      load_row(label("account.all_at_once"), account_of_all(sites, data.sites->set_spread), plan));
  return html(table);
}

std::vector<std::string> load_notes(const Plan& plan) {
  std::vector<std::string> notes;
  if (plan.load) {
    notes.push_back(plain_say("account.the_load", load_words(*plan.load, plan.report.units)));
    if (const auto& residence = plan.load->residence_months) {
      notes.push_back(plain_say("account.of_a_load_reaches_the_sea",
                                percent(reaches_sea(*residence)), months(*residence)));
    }
  }
  if (plan.money) {
    notes.push_back(plain_say("account.cost_x_metres_of_longline", shortest(plan.money->per_line_m),
                              shortest(plan.money->per_year)));
  }
  notes.emplace_back(label("account.net_of_what_was_stocked_one"));
  notes.push_back(text(published_removal()));
  return notes;
}

}  // namespace

std::string published_removal() { return label("account.published_removal_for_comparison_kelp_0"); }

std::string site_account(const Site& site, const Plan& plan) {
  const Units units = plan.report.units;
  const Account account = account_of(site);
  const PerBase base = per_base(account);
  Rows rows{
      {label("account.per_100_m_of_longline"), maybe(base.kg_per_100_m, nitrogen_per_100_m, units)},
      {label("account.per_area_of_gear_box"),
       base.kg_per_gear_ha ? plain_say("account.of_with_anchor_legs",
                                       in_line(nitrogen_per_ha(*base.kg_per_gear_ha), units),
                                       in_line(area(account.gear_ha), units))
                           : label("account.none_one_line")}};
  if (plan.load) {
    add_load_rows(account, plan, rows);
  }
  if (plan.money) {
    rows.push_back({label("account.cost_of_nitrogen"), cost_cell(account, *plan.money)});
  }
  return pairs(label("account.net_nitrogen_estimate_not_a_credit"), rows);
}

std::string load_section(const ReportData& data) {
  if (data.sites->ranked.empty()) {
    return "";
  }
  return element("section id=\"load\"", element("h2", label("account.nitrogen_accounting")) +
                                            load_table(data) + list(load_notes(*data.plan)));
}

}  // namespace tidelot::page
