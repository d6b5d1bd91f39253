// SPDX-License-Identifier: Apache-2.0
// Sheet: gear, rules, boating and protected species, month by month.
#include <fmt/format.h>

#include <array>

#include "report/sheets/ground.hpp"
#include "report/sheets/hatches.hpp"
#include "report/sheets/sheet.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/calendar.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<std::string_view, 5> kLayers{"depth", "water", "sun", "closed", "land"};
constexpr double kNames = 52.0;  ///< mm for the names of the rows
constexpr double kDay = (kBodyWidth - kNames - 2.0) / kDaysPerYear;
constexpr double kHigh = 9.0;  ///< mm, of a row
constexpr double kLow = 6.0;   ///< likewise, of many
constexpr std::size_t kMany = 6;
constexpr std::size_t kMostRules = 10;

double x_of(int day) { return kNames + (day - 1) * kDay; }

/// A bar from a day to a day, both counted; over the new year in two pieces.
struct Row {
  double y = 0.0;
  double height = kHigh;
};
std::string bar(const Row& row, DayOfYear first, DayOfYear last, std::string_view fill) {
  const auto piece = [&](int from, int to) {
    return box({x_of(from), row.y + row.height / 6.0}, (to - from + 1) * kDay,
               row.height * 2.0 / 3.0, {0.3, ""}, fill);
  };
  return first <= last ? piece(first, last) : piece(first, kDaysPerYear) + piece(1, last);
}

std::string month_names() {
  std::string all;
  for (int month = 0; month < kMonths; ++month) {
    const int first = first_day_of_month(month);
    const double middle = x_of(first) + 15.0 * kDay;
    all += words({middle, 5.0}, page::short_month(month), 2.8, Anchor::middle);
  }
  return all;
}

class Rows {
 public:
  explicit Rows(double height) : row_{7.0, height} {}
  void add(std::string_view name, const std::string& bars) {
    content_ += words({0.0, row_.y + row_.height * 0.62}, name, 2.6) + bars + lines();
    row_.y += row_.height;
  }
  [[nodiscard]] const Row& row() const { return row_; }
  [[nodiscard]] const std::string& content() const { return content_; }

 private:
  [[nodiscard]] std::string lines() const {
    const double foot = row_.y + row_.height;
    std::string all = stroke({0.0, row_.y}, {kBodyWidth - 2.0, row_.y}, {0.15, ""}) +
                      stroke({0.0, foot}, {kBodyWidth - 2.0, foot}, {0.15, ""});
    for (int month = 0; month <= kMonths; ++month) {
      const double x = month == kMonths ? x_of(kDaysPerYear + 1) : x_of(first_day_of_month(month));
      all += stroke({x, row_.y}, {x, foot}, {0.1, ".5 .5"});
    }
    return all;
  }
  Row row_;
  std::string content_;
};

std::string months_of(std::uint16_t months, const Row& row) {
  std::string all;
  for (int month = 0; month < kMonths; ++month) {
    if ((months >> month & 1U) != 0U) {
      const int last = month + 1 == kMonths ? kDaysPerYear : first_day_of_month(month + 1) - 1;
      all += bar(row, first_day_of_month(month), last, kClosed);
    }
  }
  return all;
}

/// A name that fits its column.
std::string cut(std::string plain, double size) {
  if (width_of(plain, size) <= kNames - 1.0) {
    return plain;
  }
  while (!plain.empty() && (width_of(plain + "…", size) > kNames - 1.0 || !is_utf8(plain))) {
    plain.pop_back();
  }
  return plain + "…";
}

/// Rules that hold in some months only.
std::vector<const ClosedPlan*> seasonal(const Plan& plan) {
  std::vector<const ClosedPlan*> rules;
  for (const ClosedPlan& rule : plan.closed) {
    if (rule.months != 0) {
      rules.push_back(&rule);
    }
  }
  return rules;
}

std::string chart(const Site& site, const ReportData& data) {
  const Plan& plan = *data.plan;
  const std::vector<const ClosedPlan*> rules = seasonal(plan);
  Rows rows(rules.size() > kMany ? kLow : kHigh);
  rows.add(cut(page::label("month_bar.crop"), 2.6),
           bar(rows.row(), site.outplant, wrapped_day(site.last_haul), step_fill(3)));
  if (plan.season.gear_in && plan.season.gear_out) {
    rows.add(cut(page::label("month_bar.permit_window"), 2.6),
             bar(rows.row(), *plan.season.gear_in, *plan.season.gear_out, step_fill(1)));
  }
  for (std::size_t i = 0; i < std::min(rules.size(), kMostRules); ++i) {
    rows.add(cut(rules[i]->name, 2.6), months_of(rules[i]->months, rows.row()));
  }
  for (const std::string_view name : {"month_bar.buoys", "month_bar.boating", "month_bar.fishing",
                                      "month_bar.protected_species"}) {
    rows.add(cut(page::label(name), 2.6), "");
  }
  return drawing(kBodyWidth, rows.row().y + 1.0, page::label("month_bar.months_of_gear"),
                 month_names() + rows.content());
}

}  // namespace

Sheet month_bar(const Site& site, const ReportData& data) {
  const Title title{"month_bar.title", site.name};
  if (site.outplant <= 0 || site.last_haul <= 0) {
    return no_sheet(title, "month_bar.no_season");
  }
  Sheet out = sheet_of(title, data, kLayers);
  const std::size_t rules = seasonal(*data.plan).size();
  out.drawings = chart(site, data) +
                 key_map(site, data, "key-months-" + site.name, 80.0, rules > kMany ? 30.0 : 46.0);
  std::string sentence = page::plain_say("month_bar.in_the_water", page::date(site.outplant),
                                         page::date(site.last_haul));
  if (data.plan->season.gear_in && data.plan->season.gear_out) {
    sentence +=
        " " + page::plain_say("month_bar.window_runs", page::date(*data.plan->season.gear_in),
                              page::date(*data.plan->season.gear_out));
  }
  out.notes =
      legend(legend_row(swatch(step_fill(3)), page::say("month_bar.crop")) +
             legend_row(swatch(step_fill(1)), page::say("month_bar.permit_window")) +
             legend_row(swatch(kClosed), page::say("month_bar.rule_holds"))) +
      (rules > kMostRules ? page::element("p", page::say("month_bar.more", rules - kMostRules))
                          : "") +
      page::element("p", page::text(sentence)) + page::element("p", page::say("month_bar.ask"));
  return out;
}

}  // namespace tidelot::sheet
