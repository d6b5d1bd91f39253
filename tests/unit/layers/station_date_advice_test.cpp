// SPDX-License-Identifier: Apache-2.0
#include "layers/station_date_advice.hpp"

#include <catch2/catch.hpp>

using namespace tidelot;

TEST_CASE("a date with its year last is never guessed, what to write is said") {
  CHECK(date_advice("20/01/2023", {"20/01/2023"}) ==
        "; the column's dates put the day first (20/01/2023), but that is not guessed: write the "
        "date "
        "as 2023-01-20");
  CHECK(date_advice("5/1/2023", {"5/1/2023", "20/01/2023", "2023-02-01"}) ==
        "; the column's dates put the day first (20/01/2023), but that is not guessed: write the "
        "date "
        "as 2023-01-05");
  CHECK(date_advice("05.01.2023", {"05.01.2023", "01.20.2023"}) ==
        "; the column's dates put the month first (01.20.2023), but that is not guessed: write the "
        "date as 2023-05-01");
  CHECK(date_advice("04/07/2021 13:00", {"04/07/2021 13:00"}) ==
        "; nothing tells its day from its month: write the date as 2021-07-04 or 2021-04-07, "
        "whichever it is");
  CHECK(date_advice("05/05/2021", {"05/05/2021"}) ==
        "; nothing tells its day from its month: write the date as 2021-05-05");
  CHECK(date_advice("20/01/2023", {"20/01/2023", "01/20/2023"}) ==
        "; the column's dates do not agree which number is the day: write the date as 2023-01-20");
}

TEST_CASE("what is no date at all is told what one looks like") {
  for (const char* bad : {"", "noon", "31/02/2023", "20/20/2023", "20/01/23", "20/01-2023",
                          "15 March 2024", "20230120"}) {
    INFO(bad);
    CHECK(date_advice(bad, {"20/01/2023"}) ==
          ", YYYY/MM/DD or DD-Mon-YYYY, with or without hh:mm; write it so");
  }
}
