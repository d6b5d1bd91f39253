// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/csv.hpp"

#include <catch2/catch.hpp>
#include <stdexcept>
#include <string>

using namespace tidelot;
using Catch::Contains;

namespace {

std::string failure(std::string_view text) {
  try {
    (void)parse_csv(text);
  } catch (const std::invalid_argument& problem) {
    return problem.what();
  }
  return "no failure";
}

}  // namespace

TEST_CASE("a table has a header and rows, counted as a spreadsheet counts") {
  const CsvTable table = parse_csv("lon,lat\r\n1, 2 \r\n\r\n3,4");
  CHECK(table.header == std::vector<std::string>{"lon", "lat"});
  REQUIRE(table.rows.size() == 2);
  CHECK(table.rows[0].number == 2);
  CHECK(table.rows[0].cells == std::vector<std::string>{"1", "2"});
  CHECK(table.rows[1].number == 4);
}

TEST_CASE("quotes hold separators, line ends and doubled quotes") {
  const CsvTable table = parse_csv("a,\"b\"\n\"x,\n\"\"y\"\"\",2\n");
  REQUIRE(table.rows.size() == 1);
  CHECK(table.rows[0].cells[0] == "x,\n\"y\"");
  CHECK(table.rows[0].cells[1] == "2");
}

TEST_CASE("the separator is found out, and a byte order mark passed over") {
  CHECK(parse_csv("\xEF\xBB\xBFlon;lat\n1,5;2,5\n").separator == ';');
  CHECK(parse_csv("\xEF\xBB\xBFlon;lat\n1,5;2,5\n").header[0] == "lon");
  CHECK(parse_csv("lon\tlat\n1\t2\n").separator == '\t');
  CHECK(parse_csv("\"a;b;c\",d\n1,2\n").separator == ',');
}

TEST_CASE("what breaks a table is told with its row") {
  CHECK_THAT(failure("a,b\n1,2\n1,2,3\n"), Contains("row 3: has 3 cells, the header 2"));
  CHECK_THAT(failure("a,b\n1\n"), Contains("row 2: has 1 cells"));
  CHECK_THAT(failure("a,b\n1,\"2\n"), Contains("row 2: opens a quote that is never closed"));
  CHECK_THAT(failure("a,b\n1,2\"\n"), Contains("row 2: has a quote inside a cell"));
  CHECK_THAT(failure("a,b\n\"1\"x,2\n"), Contains("row 2: has text after a closing quote"));
  CHECK_THAT(failure("a,b\r1,2\r"), Contains("row 1: holds a bare carriage return"));
  CHECK_THAT(failure(std::string_view("a,b\n1,\0\n", 8)), Contains("row 2: holds a zero byte"));
  CHECK_THAT(failure("a,b\n1,\xE9t\xE9\n"), Contains("row 2: is not UTF-8"));
  CHECK_THAT(failure("\xFF\xFE"
                     "a"),
             Contains("UTF-16"));
  CHECK_THAT(failure(""), Contains("is empty"));
  CHECK_THAT(failure("\n\n"), Contains("is empty"));
}

TEST_CASE("a number is the whole cell") {
  CHECK(csv_number("0.85") == 0.85);
  CHECK(csv_number("-1e-3") == -1e-3);
  CHECK(csv_number("+2") == 2.0);
  CHECK(csv_number("1,5", ',') == 1.5);
  for (const char* bad : {"", "1 2", "0.85x", "nan", "inf", "1,5", "+-1", "0x10"}) {
    INFO(bad);
    CHECK_FALSE(csv_number(bad));
  }
  CHECK_FALSE(csv_number("1.000,5", ','));
}
