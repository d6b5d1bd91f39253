// SPDX-License-Identifier: Apache-2.0
// [load], [report] and [money]: what the figures are held against, and how they are told.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <regex>

#include "plan/plan_file.hpp"
#include "plan/read_tables.hpp"

namespace tidelot::planfile {
namespace {

MarkPlan read_mark(Section& mark) {
  MarkPlan out;
  out.name = mark.text("name");
  const std::vector<double> at = mark.numbers("at");
  out.at = {at[0], at[1]};
  return out;
}

std::vector<MarkPlan> read_marks(Section& report) {
  std::vector<MarkPlan> marks;
  const toml::node* node = report.table() != nullptr ? report.table()->get("marks") : nullptr;
  const toml::array* tables = node != nullptr ? node->as_array() : nullptr;
  if (tables != nullptr && tables->size() > kMostMarks) {
    report.fail("marks", fmt::format("are {}, {} at most; keep those that a chart shows best",
                                     tables->size(), kMostMarks));
  }
  for (std::size_t i = 0; tables != nullptr && i < tables->size(); ++i) {
    Section mark(report.reading(), tables->get_as<toml::table>(i),
                 fmt::format("report.marks[{}]", i));
    MarkPlan found = read_mark(mark);
    if (std::any_of(marks.begin(), marks.end(),
                    [&](const MarkPlan& other) { return other.name == found.name; })) {
      mark.fail("name",
                fmt::format("\"{}\" is taken by another mark; give each its own name", found.name));
    }
    marks.push_back(std::move(found));
  }
  return marks;
}

bool is_day(std::string_view text) {
  static const std::regex form("([0-9]{4})-([0-9]{2})-([0-9]{2})");
  std::match_results<std::string_view::const_iterator> parts;
  if (!std::regex_match(text.begin(), text.end(), parts, form)) {
    return false;
  }
  const auto part = [&](std::size_t i) { return std::stoi(parts[i].str()); };
  return std::chrono::year_month_day(std::chrono::year(part(1)),
                                     std::chrono::month(static_cast<unsigned>(part(2))),
                                     std::chrono::day(static_cast<unsigned>(part(3))))
      .ok();
}

std::string read_date(Section& report) {
  if (!report.given("date")) {
    return "";
  }
  std::string date = report.text("date");
  if (!is_day(date)) {
    report.fail("date", fmt::format("must be a day, \"2026-06-14\", not \"{}\"", date));
  }
  return date;
}

}  // namespace

MapSheet map_sheet(std::string_view word) {
  return word == "uses"      ? MapSheet::uses
         : word == "habitat" ? MapSheet::habitat
                             : MapSheet::automatic;
}

std::optional<LoadPlan> read_load(Reading& reading) {
  if (!reading.root.contains("load")) {
    return std::nullopt;
  }
  Section load(reading, "load");
  LoadPlan out;
  out.nitrogen_kg_per_year = load.number("nitrogen_kg_per_year");
  out.kind = load.text("kind");
  out.segment = load.text("segment");
  out.period = load.text("period");
  if (load.given("year")) {
    out.year = static_cast<int>(load.whole("year"));
  }
  out.goal_percent = load.maybe_number("goal_percent");
  out.residence_months = load.maybe_number("residence_months");
  return out;
}

ReportPlan read_report(Reading& reading) {
  Section report(reading, "report");
  ReportPlan out;
  out.applicant = report.text("applicant");
  out.waterbody = report.text("waterbody");
  out.marker_gap_m = report.number("marker_gap_m");
  const std::string units = report.text("units");
  out.units = units == "metric" ? ReportPlan::Units::metric
              : units == "us"   ? ReportPlan::Units::us
                                : ReportPlan::Units::both;
  out.nad83 = report.text("datum") == "NAD 83";
  out.marks = read_marks(report);
  out.what_if = report.text("what_if") == "yes";
  if (const auto labels = report.maybe_file("labels")) {
    const std::string key = report.placed("labels", fmt::format("= \"{}\"", labels->written));
    out.labels = Labels::from_text(read_text_file(*labels, key, Fault::plan), labels->written);
  }
  out.date = read_date(report);
  const std::string paper = report.text("paper");
  out.a4 = paper == "A4" || (paper == "auto" && out.units == ReportPlan::Units::metric);
  out.sheet_sites = static_cast<int>(report.whole("sheet_sites"));
  return out;
}

std::optional<MoneyPlan> read_money(Reading& reading) {
  if (!reading.root.contains("money")) {
    return std::nullopt;
  }
  Section money(reading, "money");
  MoneyPlan out;
  out.per_line_m = money.number("per_line_m");
  out.per_year = money.number("per_year");
  if (out.per_line_m + out.per_year <= 0.0) {
    money.fail("per_line_m",
               "and money.per_year are both 0 or left out; give a cost, or take the "
               "table out");
  }
  return out;
}

}  // namespace tidelot::planfile
