// SPDX-License-Identifier: Apache-2.0
#include "run/memory/memory.hpp"

#include <catch2/catch.hpp>
#include <string>

#include "run/memory/page_keeper.hpp"
#include "tidelot/core/error.hpp"

using namespace tidelot;
using run::memory_within;
using run::MemoryNeed;
using run::MemoryUse;
using run::predicted_memory;

namespace {

constexpr std::size_t kMiB = std::size_t{1} << 20U;

MemoryNeed bay(std::size_t cells) { return {cells, 4096, 300, 0, 100 * kMiB}; }

}  // namespace

TEST_CASE("the predicted memory is that of the largest stage and grows by a byte a cell", "[run]") {
  const MemoryUse small = predicted_memory(bay(10'000), 2);
  const MemoryUse large = predicted_memory(bay(16'000'000), 2);
  const std::size_t always = large.layers + large.workers + large.pages + large.spare;
  CHECK(large.total() == always + large.cache);  // growing
  CHECK(large.layers == 100 * kMiB);
  CHECK(small.total() < large.total());
  CHECK(predicted_memory(bay(256'000'000), 2).total() ==
        always + large.written + 256'000'000);  // searching
  CHECK(large.total() < 1024 * kMiB);
}

TEST_CASE("threads, members and steps of time cost memory", "[run]") {
  const MemoryNeed plain = bay(16'000'000);
  const MemoryUse two = predicted_memory(plain, 2);
  const MemoryUse eight = predicted_memory(plain, 8);
  CHECK(eight.workers > two.workers);
  CHECK(eight.total() - two.total() ==
        eight.workers - two.workers + eight.written + eight.search - two.cache);
  MemoryNeed members = plain;
  members.members = 64;
  CHECK(predicted_memory(members, 2).workers > two.workers);
  MemoryNeed daily = plain;
  daily.cell_bytes = 30 * plain.cell_bytes;
  CHECK(predicted_memory(daily, 2).workers > two.workers);
}

TEST_CASE("under a ceiling pages and cache give way, and nothing else", "[run]") {
  const MemoryNeed need = bay(16'000'000);
  const MemoryUse free = memory_within(need, 2, std::nullopt);
  CHECK(free.total() == predicted_memory(need, 2).total());
  const MemoryUse held = memory_within(need, 2, free.total() - 130 * kMiB);
  CHECK(held.total() == free.total() - 130 * kMiB);
  CHECK(held.workers == free.workers);
  CHECK(held.pages < free.pages);
  CHECK(held.cache < free.cache);
}

TEST_CASE("room under the ceiling is used, but for no more than there is", "[run]") {
  const MemoryNeed need = bay(16'000'000);
  const MemoryUse free = predicted_memory(need, 2);
  CHECK(memory_within(need, 2, free.total() + 100 * kMiB).pages == free.pages + 100 * kMiB);
  const MemoryUse all = memory_within(need, 2, std::size_t{1} << 40U);
  CHECK(all.pages < 16'000'000 * std::size_t{200});
  CHECK(all.cache == free.cache);
}

TEST_CASE("what does not fit is refused with what it needs and what to do", "[run]") {
  const MemoryNeed need = bay(16'000'000);
  try {
    static_cast<void>(memory_within(need, 2, 120 * kMiB));
    FAIL("it was accepted");
  } catch (const Error& error) {
    const std::string line = error.what();
    CHECK(error.fault() == Fault::plan);
    CHECK(line.find("--memory: the run needs ") == 0);
    CHECK(line.find("120 MiB") != std::string::npos);
    CHECK(line.find("fewer --threads, or a larger [area] cell_m") != std::string::npos);
  }
}

TEST_CASE("sizes are told in whole mebibytes, rounded up", "[run]") {
  CHECK(run::mebibytes(kMiB) == "1 MiB");
  CHECK(run::mebibytes(kMiB + 1) == "2 MiB");
}

TEST_CASE("the memory held is at most the peak, and files are part of it", "[run]") {
  const run::Resident now = run::resident_memory();
  CHECK(now.of_files > 0);
  CHECK(now.of_files < now.all);
  CHECK(now.all <= run::peak_memory() + 4 * kMiB);  // the system counts in steps
}
