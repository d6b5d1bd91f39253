// SPDX-License-Identifier: Apache-2.0
#include "report/words/cautions.hpp"

#include <catch2/catch.hpp>
#include <set>

#include "tidelot/report/report.hpp"

namespace tidelot {
namespace {

TEST_CASE("twelve cautions, each with its short form", "[report]") {
  CHECK(cautions().size() == 12);
  CHECK(page::short_cautions().size() == cautions().size());
  CHECK(std::set<std::string>(cautions().begin(), cautions().end()).size() == 12);
  for (const std::string& caution : cautions()) {
    CHECK(caution.back() == '.');
  }
  CHECK(cautions().front() ==
        "Not for navigation. Charts and models behind this map may be old or wrong.");
  CHECK(cautions().back() == "A cell is an average. Go and look before you decide.");
}

}  // namespace
}  // namespace tidelot
