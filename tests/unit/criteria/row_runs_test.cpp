// SPDX-License-Identifier: Apache-2.0
#include "criteria/row_runs.hpp"

#include <catch2/catch.hpp>

using namespace tidelot;

namespace {
const Grid kGrid{1000.0, 2000.0, 10.0, 5, 4, "EPSG:32626"};
}

TEST_CASE("runs are cut at the grid and overlap freely") {
  std::vector<std::uint32_t> mask(kGrid.size(), 0U);
  RowRuns runs(kGrid, 3, mask);
  runs.add(1, 2, 9);
  runs.add(1, -4, 0);
  runs.add(1, 3, 3);
  runs.add(-1, 0, 4);
  runs.add(4, 0, 4);
  runs.add(2, 3, 2);
  runs.finish();
  for (std::size_t i = 0; i < mask.size(); ++i) {
    const bool expected = i == 5 || i == 7 || i == 8 || i == 9;
    CHECK(mask[i] == (expected ? 8U : 0U));
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
