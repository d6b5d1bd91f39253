// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <string>

#include "tidelot/core/error.hpp"
#include "tidelot/plan/plan.hpp"
#include "unit/plan/plan_text.hpp"

using namespace tidelot;
using Catch::Contains;
using testing::plus;

TEST_CASE("Sheets: the date as written, Letter unless units are metric alone, the best site") {
  const Plan bare = parse_plan(plus(""), "plan.toml");
  CHECK(bare.report.date.empty());
  CHECK_FALSE(bare.report.a4);
  CHECK(bare.report.sheet_sites == 1);
  const Plan metric =
      parse_plan(plus("[report]\nunits = \"metric\"\ndate = \"2024-02-29\"\n"), "p");
  CHECK(metric.report.a4);
  CHECK(metric.report.date == "2024-02-29");
  const auto with = [](const std::string& keys) {
    return parse_plan(plus("[report]\n" + keys), "p").report.a4;
  };
  CHECK(with("paper = \"A4\"\n"));
  CHECK_FALSE(with("units = \"metric\"\npaper = \"letter\"\n"));
}

TEST_CASE("A date of the sheets that is no day is refused") {
  for (const char* day : {"2023-02-29", "14 June 2026", "2026-6-14", "06-14"}) {
    CHECK_THROWS_WITH(
        parse_plan(plus("[report]\ndate = \"" + std::string(day) + "\"\n"), "plan.toml"),
        Contains("report.date must be a day"));
  }
}
