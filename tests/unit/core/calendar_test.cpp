// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/calendar.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <numeric>
#include <string>

using namespace tidelot;

TEST_CASE("A day is two digits, a dash and two digits, of a year without a leap day") {
  for (const char* text :
       {"",      "5-15",  "05-1",  "05/15", "0515",  "05-15 ", " 05-15", "005-15",
        "00-10", "13-01", "05-00", "04-31", "06-31", "09-31",  "11-31",  "12-32",
        "02-29", "02-30", "-1-05", "0x-01", "05-1x", "+5-01",  "auto"}) {
    INFO(text);
    CHECK_FALSE(parse_month_day(text));
  }
}

TEST_CASE("Days count from 1 January to 31 December") {
  CHECK(parse_month_day("01-01") == 1);
  CHECK(parse_month_day("01-31") == 31);
  CHECK(parse_month_day("02-28") == 59);
  CHECK(parse_month_day("03-01") == 60);
  CHECK(parse_month_day("05-15") == 135);
  CHECK(parse_month_day("06-01") == 152);
  CHECK(parse_month_day("12-31") == 365);
}

TEST_CASE("Every day of the year reads back as it is written") {
  for (DayOfYear day = 1; day <= kDaysPerYear; ++day) {
    CHECK(parse_month_day(format_month_day(day)) == day);
  }
}

TEST_CASE("Days beyond the year wrap round, before it too") {
  CHECK(format_month_day(366) == "01-01");
  CHECK(format_month_day(365 + 135) == "05-15");
  CHECK(format_month_day(3 * 365 + 59) == "02-28");
  CHECK(format_month_day(0) == "12-31");
  CHECK(format_month_day(-364) == "01-01");
  CHECK(month_of(366) == 0);
  CHECK(month_of(0) == 11);
  CHECK(month_of(-1) == 11);
}

TEST_CASE("The farthest days wrap without overflow") {
  CHECK(format_month_day(std::numeric_limits<int>::min()).size() == 5);
  CHECK(format_month_day(std::numeric_limits<int>::max()).size() == 5);
}

TEST_CASE("A month owns its first and its last day") {
  for (int month = 0; month < kMonths; ++month) {
    const DayOfYear first = first_day_of_month(month);
    const DayOfYear last = first + kMonthDays[static_cast<std::size_t>(month)] - 1;
    CHECK(month_of(first) == month);
    CHECK(month_of(last) == month);
    CHECK(month_of(last + 1) == (month + 1) % kMonths);
  }
  CHECK(std::accumulate(kMonthDays.begin(), kMonthDays.end(), 0) == kDaysPerYear);
}

TEST_CASE("The middle of a month lies half its days after its start") {
  CHECK(middle_of_month(0) == 15.5);
  CHECK(middle_of_month(1) == 45.0);
  CHECK(middle_of_month(6) == 196.5);
  CHECK(middle_of_month(11) == 349.5);
}

TEST_CASE("Months have short English names") {
  CHECK(month_name(0) == "Jan");
  CHECK(month_name(4) == "May");
  CHECK(month_name(11) == "Dec");
}

TEST_CASE("a day counted over the new year is one of the year") {
  CHECK(wrapped_day(1) == 1);
  CHECK(wrapped_day(365) == 365);
  CHECK(wrapped_day(366) == 1);
  CHECK(wrapped_day(0) == 365);
  CHECK(wrapped_day(-364) == 1);
  CHECK(wrapped_day(1095) == 365);
}

TEST_CASE("months that a stretch of days touches") {
  CHECK(months_between(1, 31) == 1U);
  CHECK(months_between(31, 32) == 3U);
  CHECK(months_between(152, 273) == 0b0001'1110'0000);  // June to September
  CHECK(months_between(335, 365 + 40) == 0b1000'0000'0011);
  CHECK(months_between(100, 800) == 0xFFF);
  CHECK(months_between(10, 9) == 0U);
}
