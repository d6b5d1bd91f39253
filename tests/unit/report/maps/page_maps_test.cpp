// SPDX-License-Identifier: Apache-2.0
#include "report/maps/page_maps.hpp"

#include <catch2/catch.hpp>
#include <thread>

#include "report/maps/picture.hpp"
#include "support/report_fixture.hpp"

namespace tidelot::page {
namespace {

/// Each task on a thread of its own, the last one begun first.
void on_threads(std::size_t count, const std::function<void(std::size_t)>& task) {
  for (std::size_t i = count; i-- > 0;) {
    std::jthread(task, i).join();
  }
}

TEST_CASE("the maps are the same whoever makes them in whatever order", "[report]") {
  const test::ReportFixture bay;
  const Sampling sampling = sampling_of(bay.grid());
  test::PngTwin writer;
  const PageMaps one = page_maps(bay.data(), sampling, 1, writer, in_turn);
  const PageMaps other = page_maps(bay.data(), sampling, 1, writer, on_threads);
  REQUIRE(one.shown.size() == other.shown.size());
  for (std::size_t i = 0; i < one.shown.size(); ++i) {
    CHECK(one.shown[i].key == other.shown[i].key);
    CHECK(one.shown[i].codes == other.shown[i].codes);
  }
  CHECK(one.shown_png == other.shown_png);
  CHECK(one.read_out_png == other.read_out_png);
  CHECK(one.still == other.still);
}

TEST_CASE("bands of rows are an eighth of a sampling", "[report]") {
  const Grid grid{0, 0, 10.0, 3, 4 * kBand * kThinned, ""};
  const Sampling all = sampling_of(grid);
  const Sampling part = thinned(all);
  CHECK(part.cols == all.cols);
  CHECK(part.rows * kThinned == all.rows);
  REQUIRE(part.size() * kThinned == all.size());
  CHECK(part.row_begin[0] == all.row_begin[static_cast<std::size_t>(kBand * kThinned / 2)]);
  CHECK(part.col == all.col);
}

}  // namespace
}  // namespace tidelot::page
