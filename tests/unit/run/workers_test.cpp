// SPDX-License-Identifier: Apache-2.0
#include "run/workers.hpp"

#include <atomic>
#include <catch2/catch.hpp>
#include <csignal>
#include <numeric>
#include <stdexcept>
#include <vector>

#include "tidelot/core/error.hpp"

using tidelot::run::for_each;

TEST_CASE("every item is done once, whatever the number of workers", "[run]") {
  for (const int workers : {1, 2, 7}) {
    std::vector<std::atomic<int>> times(1000);
    std::size_t told = 0;
    for_each(
        times.size(), workers, nullptr, [&](std::size_t i, int) { ++times[i]; },
        [&](std::size_t) { ++told; });
    CHECK(told == times.size());
    CHECK(std::all_of(times.begin(), times.end(), [](const auto& t) { return t == 1; }));
  }
}

TEST_CASE("a worker's number names its own things", "[run]") {
  std::vector<int> running(4, 0);
  for_each(500, 4, nullptr, [&](std::size_t, int worker) {
    auto& mine = running[static_cast<std::size_t>(worker)];
    ++mine;
    REQUIRE(mine >= 1);
  });
  CHECK(std::accumulate(running.begin(), running.end(), 0) == 500);
}

TEST_CASE("a failure comes out as it was thrown, and ends the loop", "[run]") {
  std::atomic<int> done = 0;
  const auto task = [&](std::size_t i, int) {
    if (i == 5) {
      throw std::runtime_error("item 5");
    }
    ++done;
  };
  CHECK_THROWS_WITH(for_each(100000, 1, nullptr, task), "item 5");
  CHECK(done == 5);
}

TEST_CASE("of two failures the lower item is told", "[run]") {
  for (int round = 0; round < 20; ++round) {
    CHECK_THROWS_WITH(
        for_each(2, 2, nullptr,
                 [](std::size_t i, int) { throw std::runtime_error(i == 0 ? "first" : "second"); }),
        Catch::Contains("first") || Catch::Contains("second"));
  }
}

TEST_CASE("a signal stops the loop between items", "[run]") {
  std::atomic<int> signal = 0;
  int done = 0;
  const auto task = [&](std::size_t, int) {
    if (++done == 3) {
      signal = SIGTERM;
    }
  };
  try {
    for_each(100, 1, &signal, task);
    FAIL("went on");
  } catch (const tidelot::Interrupted& stop) {
    CHECK(stop.signal() == SIGTERM);
  }
  CHECK(done == 3);
}
