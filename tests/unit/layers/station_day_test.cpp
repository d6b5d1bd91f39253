// SPDX-License-Identifier: Apache-2.0
#include "layers/station_day.hpp"

#include <catch2/catch.hpp>

using namespace tidelot;

TEST_CASE("ISO dates are read, with clock and zone") {
  CHECK(parse_stamp("2021-07-04")->day == Day{2021, 7, 4});
  const auto stamp = parse_stamp("2021-07-04T13:30");
  REQUIRE(stamp);
  CHECK(*stamp->hours == 13.5);
  CHECK_FALSE(stamp->utc);
  CHECK(parse_stamp("2021-07-04 13:30:15.25Z")->utc);
  CHECK(parse_stamp("2021-07-04T13:30-05:00")->zoned);
  CHECK(parse_stamp("2020-02-29"));
}

TEST_CASE("days that can be read in one way only are read") {
  for (const char* good : {"2023/01/20", "20-Jan-2023", "20 Jan 2023", "20-JAN-2023", "20 jan 2023",
                           "2023/01/20 13:30", "20 Jan 2023T13:30"}) {
    INFO(good);
    REQUIRE(parse_stamp(good));
    CHECK(parse_stamp(good)->day == Day{2023, 1, 20});
  }
  CHECK(parse_stamp("4-Jul-2021")->day == Day{2021, 7, 4});
  CHECK(*parse_stamp("4 Jul 2021 13:30")->hours == 13.5);
}

TEST_CASE("other spellings and days that do not exist are not") {
  for (const char* bad : {"",
                          "2021-7-4",
                          "04/07/2021",
                          "07.04.2021",
                          "2021-02-29",
                          "2021-13-01",
                          "2021-00-10",
                          "20210704",
                          "2021-07-04T",
                          "2021-07-04T25:00",
                          "2021-07-04T13:61",
                          "2021-07-04 noon",
                          "2021-07-04T13:30 EST",
                          "0021-07-04",
                          "2021-07",
                          "2021/07-04",
                          "2021/7/4",
                          "20-Jan 2023",
                          "20-Jan-23",
                          "31-Feb-2023",
                          "20 January 2023",
                          "Jan 20 2023",
                          "0-Jan-2023",
                          "20-Jna-2023",
                          "-Jan-2023",
                          "20/Jan/2023"}) {
    INFO(bad);
    CHECK_FALSE(parse_stamp(bad));
  }
}

TEST_CASE("a moment in UTC belongs to the day of its place") {
  CHECK(local_day({2021, 3, 1}, 2.0, -71.0) == Day{2021, 2, 28});
  CHECK(local_day({2021, 3, 1}, 6.0, -71.0) == Day{2021, 3, 1});
  CHECK(local_day({2021, 12, 31}, 20.0, 150.0) == Day{2022, 1, 1});
  CHECK(local_day({2024, 3, 1}, 1.0, -30.0) == Day{2024, 2, 29});
}
