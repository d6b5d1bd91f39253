// SPDX-License-Identifier: Apache-2.0
// Sheet: gear, rules, boating and protected species, month by month.
#include <fmt/format.h>

#include <array>

#include "report/sheets/ground.hpp"
#include "report/sheets/hatches.hpp"
#include "report/sheets/sheet.hpp"
#include "report/words.hpp"
#include "tidelot/core/calendar.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<std::string_view, 5> kLayers{"depth", "water", "sun", "closed", "land"};
constexpr double kNames = 52.0;  ///< mm for the names of the rows
constexpr double kDay = (kBodyWidth - kNames - 2.0) / kDaysPerYear;
constexpr double kRow = 9.0;

double x_of(int day) { return kNames + (day - 1) * kDay; }

/// A bar from a day to a day, both counted; over the new year in two pieces.
std::string bar(double y, DayOfYear first, DayOfYear last, std::string_view fill) {
  const auto piece = [&](int from, int to) {
    return box({x_of(from), y + 1.5}, (to - from + 1) * kDay, kRow - 3.0, {0.3, ""}, fill);
  };
  return first <= last ? piece(first, last) : piece(first, kDaysPerYear) + piece(1, last);
}

std::string month_names() {
  std::string all;
  for (int month = 0; month < kMonths; ++month) {
    const int first = first_day_of_month(month);
    const double middle = x_of(first) + 15.0 * kDay;
    all += words({middle, 5.0}, month_name(month), 2.8, Anchor::middle);
  }
  return all;
}

class Rows {
 public:
  void add(std::string_view name, const std::string& bars) {
    content_ += words({0.0, y_ + kRow * 0.62}, name, 2.6) + bars + lines();
    y_ += kRow;
  }
  [[nodiscard]] double y() const { return y_; }
  [[nodiscard]] const std::string& content() const { return content_; }

 private:
  [[nodiscard]] std::string lines() const {
    std::string all = stroke({0.0, y_}, {kBodyWidth - 2.0, y_}, {0.15, ""}) +
                      stroke({0.0, y_ + kRow}, {kBodyWidth - 2.0, y_ + kRow}, {0.15, ""});
    for (int month = 0; month <= kMonths; ++month) {
      const double x = month == kMonths ? x_of(kDaysPerYear + 1) : x_of(first_day_of_month(month));
      all += stroke({x, y_}, {x, y_ + kRow}, {0.1, ".5 .5"});
    }
    return all;
  }
  double y_ = 7.0;
  std::string content_;
};

std::string months_of(std::uint16_t months, double y) {
  std::string all;
  for (int month = 0; month < kMonths; ++month) {
    if ((months >> month & 1U) != 0U) {
      const int last = month + 1 == kMonths ? kDaysPerYear : first_day_of_month(month + 1) - 1;
      all += bar(y, first_day_of_month(month), last, kClosed);
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

std::string chart(const Site& site, const ReportData& data) {
  const Plan& plan = *data.plan;
  Rows rows;
  rows.add("Crop in the water",
           bar(rows.y(), site.outplant, wrapped_day(site.last_haul), step_fill(3)));
  if (plan.season.gear_in && plan.season.gear_out) {
    rows.add("Permit window",
             bar(rows.y(), *plan.season.gear_in, *plan.season.gear_out, step_fill(1)));
  }
  for (const ClosedPlan& rule : plan.closed) {
    if (rule.months != 0) {
      rows.add(cut(rule.name, 2.6), months_of(rule.months, rows.y()));
    }
  }
  rows.add("Buoys, anchors (write in)", "");
  rows.add("Boating (write in)", "");
  rows.add("Fishing, racing (write in)", "");
  rows.add("Protected species (write in)", "");
  return drawing(kBodyWidth, rows.y() + 1.0, "Months of gear and of other uses",
                 month_names() + rows.content());
}

}  // namespace

Sheet month_bar(const Site& site, const ReportData& data) {
  const std::string title = "Months, site " + site.name;
  if (site.outplant <= 0 || site.last_haul <= 0) {
    return no_sheet(title, "the site has no season");
  }
  Sheet out = sheet_of(title, data, kLayers);
  out.drawings = chart(site, data) + key_map(site, data, "key-months-" + site.name, 80.0, 60.0);
  std::string sentence = fmt::format("Crop in the water from {} to {}, by the water and the crop",
                                     page::date(site.outplant), page::date(site.last_haul));
  if (data.plan->season.gear_in && data.plan->season.gear_out) {
    sentence += fmt::format("; the plan's permit window runs from {} to {}",
                            page::date(*data.plan->season.gear_in),
                            page::date(*data.plan->season.gear_out));
  }
  out.notes =
      legend(legend_row(swatch(step_fill(3)), "crop in the water") +
             legend_row(swatch(step_fill(1)), "permit window of the plan") +
             legend_row(swatch(kClosed), "months in which a rule of the plan holds")) +
      page::element("p", page::text(sentence) + ".") +
      page::element("p",
                    "Boating, fishing and protected species are not in the plan: ask, and write "
                    "them in. Lines in the water can entangle whales, turtles and seals.");
  return out;
}

}  // namespace tidelot::sheet
