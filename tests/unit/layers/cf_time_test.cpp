// SPDX-License-Identifier: Apache-2.0
#include "tidelot/layers/cf_time.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <string>

using namespace tidelot;

namespace {

CfDate at(const std::string& units, const std::string& calendar, double value) {
  return cf_date(parse_cf_time(units, calendar), value);
}

struct Row {
  std::string calendar;
  double value;
  CfDate date;
};

}  // namespace

// Days since 2001-01-01; computed with cftime 1.6.2 (has_year_zero), an independent implementation.
TEST_CASE("six calendars give the dates of an independent implementation") {
  const Row rows[] = {
      {"standard", 0, {2001, 1, 1}},
      {"standard", 58, {2001, 2, 28}},
      {"standard", 59, {2001, 3, 1}},
      {"standard", 1154, {2004, 2, 29}},
      {"standard", 1460, {2004, 12, 31}},
      {"standard", 1461, {2005, 1, 1}},
      {"standard", 8000, {2022, 11, 27}},
      {"standard", 36524, {2101, 1, 1}},
      {"standard", -1, {2000, 12, 31}},
      {"standard", -400, {1999, 11, 28}},
      {"standard", -200000, {1453, 5, 25}},
      {"proleptic_gregorian", 1154, {2004, 2, 29}},
      {"proleptic_gregorian", 36524, {2101, 1, 1}},
      {"proleptic_gregorian", -400, {1999, 11, 28}},
      {"proleptic_gregorian", -200000, {1453, 6, 3}},
      {"julian", 1154, {2004, 2, 29}},
      {"julian", 36524, {2100, 12, 31}},
      {"julian", -200000, {1453, 6, 7}},
      {"noleap", 59, {2001, 3, 1}},
      {"noleap", 1154, {2004, 3, 1}},
      {"noleap", 1460, {2005, 1, 1}},
      {"noleap", 8000, {2022, 12, 2}},
      {"noleap", 36524, {2101, 1, 25}},
      {"noleap", -400, {1999, 11, 27}},
      {"noleap", -200000, {1453, 1, 21}},
      {"all_leap", 59, {2001, 2, 29}},
      {"all_leap", 60, {2001, 3, 1}},
      {"all_leap", 365, {2001, 12, 31}},
      {"all_leap", 1154, {2004, 2, 26}},
      {"all_leap", 36524, {2100, 10, 17}},
      {"all_leap", -200000, {1454, 7, 21}},
      {"360_day", 58, {2001, 2, 29}},
      {"360_day", 59, {2001, 2, 30}},
      {"360_day", 60, {2001, 3, 1}},
      {"360_day", 365, {2002, 1, 6}},
      {"360_day", 8000, {2023, 3, 21}},
      {"360_day", -1, {2000, 12, 30}},
      {"360_day", -200000, {1445, 6, 11}},
  };
  for (const Row& row : rows) {
    CAPTURE(row.calendar, row.value);
    const CfDate date = at("days since 2001-01-01", row.calendar, row.value);
    CHECK(to_text(date) == to_text(row.date));
  }
}

TEST_CASE("the standard calendar skips ten days in October 1582") {
  CHECK(at("days since 1582-10-15", "gregorian", -1) == CfDate{1582, 10, 4});
  CHECK(at("days since 1582-10-04", "", 1) == CfDate{1582, 10, 15});
  CHECK_FALSE(is_cf_date(CfCalendar::standard, {1582, 10, 10}));
  CHECK(is_cf_date(CfCalendar::proleptic_gregorian, {1582, 10, 10}));
}

TEST_CASE("every calendar's day numbers and dates are each other's inverse") {
  const auto calendar =
      GENERATE(CfCalendar::standard, CfCalendar::proleptic_gregorian, CfCalendar::julian,
               CfCalendar::no_leap, CfCalendar::all_leap, CfCalendar::days_360);
  for (std::int64_t number = -1100000; number < 1100000; number += 97) {
    const CfDate date = cf_date_of_day(calendar, number);
    REQUIRE(is_cf_date(calendar, date));
    REQUIRE(cf_day_number(calendar, date) == number);
  }
}

TEST_CASE("days are counted from 1 January of year 0") {
  const auto calendar =
      GENERATE(CfCalendar::standard, CfCalendar::proleptic_gregorian, CfCalendar::julian,
               CfCalendar::no_leap, CfCalendar::all_leap, CfCalendar::days_360);
  CHECK(cf_day_number(calendar, {0, 1, 1}) == 0);
  CHECK(cf_day_number(calendar, {-1, 12, calendar == CfCalendar::days_360 ? 30 : 31}) == -1);
}

TEST_CASE("a climatological axis in hours since year 0 gives the twelve months") {
  const double hours[] = {366,     1096.485, 1826.97, 2557.455, 3287.94, 4018.425,
                          4748.91, 5479.395, 6209.88, 6940.365, 7670.85, 8401.335};
  const CfTimeAxis axis = parse_cf_time("hour since 0000-01-01 00:00:00", "");
  for (int month = 0; month < 12; ++month) {
    CHECK(cf_date(axis, hours[month]).month == month + 1);
  }
}

TEST_CASE("time units are read in the spellings that files use") {
  CHECK(at("hours since 2001-01-01 12:00:00", "standard", 12) == CfDate{2001, 1, 2});
  CHECK(at("hours since 2001-01-01 12:00:00", "standard", 11.9) == CfDate{2001, 1, 1});
  CHECK(at("seconds since 1970-01-01T00:00:00Z", "standard", 86400.0 * 31) == CfDate{1970, 2, 1});
  CHECK(at("Minutes since 1970-1-1 0:0:0.0", "standard", 1440) == CfDate{1970, 1, 2});
  CHECK(at("days since 1950-01-01 00:00:00 UTC", "Gregorian", 0) == CfDate{1950, 1, 1});
  CHECK(at("days since 2001-01-01 00:00 +02:00", "standard", 0) == CfDate{2000, 12, 31});
  CHECK(at("months since 1999-12-01", "standard", 3) == CfDate{2000, 3, 1});
  CHECK(at("months since 2001-01-31", "standard", 1) == CfDate{2001, 2, 28});
  CHECK(at("weeks since 2001-01-01", "standard", 1) == CfDate{2001, 1, 8});
  CHECK(at("days since 2001-01-01", "standard", 58.99999999) == CfDate{2001, 3, 1});
}

TEST_CASE("what is not understood is refused") {
  const std::string units =
      GENERATE(as<std::string>{}, "", "days", "days since", "days since noon",
               "years since 2001-01-01", "fortnights since 2001-01-01", "days since 2001-13-01",
               "days since 2001-02-30", "days since 2001-01-01 25:00", "days since 2001-01-01 XYZ");
  CAPTURE(units);
  CHECK_THROWS_AS(parse_cf_time(units, "standard"), std::invalid_argument);
}

TEST_CASE("an unknown calendar, a broken month and a wild time are refused") {
  CHECK_THROWS_AS(parse_cf_time("days since 2001-01-01", "lunar"), std::invalid_argument);
  CHECK_THROWS_AS(at("months since 2001-01-01", "", 0.5), std::invalid_argument);
  CHECK_THROWS_AS(at("days since 2001-01-01", "", 1e12), std::invalid_argument);
  CHECK_THROWS_AS(at("days since 2001-01-01", "", std::nan("")), std::invalid_argument);
  CHECK_THROWS_AS(at("months since 2001-01-01", "", std::numeric_limits<double>::infinity()),
                  std::invalid_argument);
}
