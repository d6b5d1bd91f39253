// SPDX-License-Identifier: Apache-2.0
#include "criteria/row_runs.hpp"

#include <catch2/catch.hpp>

using namespace tidelot;

namespace {
const Grid kGrid{1000.0, 2000.0, 10.0, 5, 4, "EPSG:32626"};
}

TEST_CASE("runs are cut at the grid and made one where they overlap or touch") {
  RowRuns runs(kGrid);
  runs.add(2, 4, 4);
  runs.add(1, 2, 9);
  runs.add(1, -4, 0);
  runs.add(1, 3, 3);
  runs.add(-1, 0, 4);
  runs.add(4, 0, 4);
  runs.add(2, 3, 2);
  runs.add(2, 2, 3);
  const auto merged = std::move(runs).merged();
  REQUIRE(merged.size() == 3);
  const CellRun expected[] = {{1, 0, 0}, {1, 2, 4}, {2, 2, 4}};
  for (std::size_t i = 0; i < merged.size(); ++i) {
    CHECK(merged[i].row == expected[i].row);
    CHECK(merged[i].first == expected[i].first);
    CHECK(merged[i].last == expected[i].last);
  }
}

TEST_CASE("very many runs over the same cells are merged on the way") {
  RowRuns runs(kGrid);
  for (int i = 0; i < (1 << 20) + 5; ++i) {
    runs.add(i % 4, i % 3, i % 3);
  }
  const auto merged = std::move(runs).merged();
  REQUIRE(merged.size() == 4);
  for (int row = 0; row < 4; ++row) {
    CHECK(merged[static_cast<std::size_t>(row)].row == row);
    CHECK(merged[static_cast<std::size_t>(row)].first == 0);
    CHECK(merged[static_cast<std::size_t>(row)].last == 2);
  }
}

TEST_CASE("an x on an edge touches the cells on both sides, one on a centre is that centre's") {
  CHECK(columns_touching(kGrid, 1020.0, 1020.0).first == 1);
  CHECK(columns_touching(kGrid, 1020.0, 1020.0).last == 2);
  CHECK(rows_touching(kGrid, 1980.0, 1980.0).first == 1);
  CHECK(rows_touching(kGrid, 1980.0, 1980.0).last == 2);
  CHECK(first_centre_from(kGrid, 1015.0) == 1);
  CHECK(first_centre_from(kGrid, 1015.1) == 2);
}

TEST_CASE("what lies off the grid touches nothing") {
  for (const double far : {-1e12, 900.0, 1051.0, 1e12}) {
    const CellRange cols = columns_touching(kGrid, far, far);
    CHECK(cols.first > cols.last);
  }
  CHECK(rows_touching(kGrid, 2001.0, 1e9).first > rows_touching(kGrid, 2001.0, 1e9).last);
  CHECK(rows_touching(kGrid, -1e9, 1959.0).first > rows_touching(kGrid, -1e9, 1959.0).last);
  CHECK(first_centre_from(kGrid, 1e12) == 5);
  CHECK(first_centre_from(kGrid, -1e12) == 0);
}
