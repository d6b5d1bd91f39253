// SPDX-License-Identifier: Apache-2.0
#include "run/memory/page_keeper.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>

#include "run/memory/folder_room.hpp"
#include "support/temp_folder.hpp"

using namespace tidelot;

namespace {

constexpr std::size_t kBytes = std::size_t{64} << 20U;
constexpr std::size_t kMost = std::size_t{8} << 20U;

std::size_t files_held() { return run::resident_memory().of_files; }

/// Waits until the process holds no more, at most a few seconds.
bool falls_to(std::size_t most) {
  const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(20);
  while (files_held() > most && std::chrono::steady_clock::now() < end) {
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
  return files_held() <= most;
}

}  // namespace

TEST_CASE("pages of a room are given back, and what was written stays", "[run]") {
  const test::TempFolder top;
  const UseRoom room(std::make_shared<run::FolderRoom>(top / ""));
  const std::size_t before = files_held();
  GridVector<std::uint8_t> cells(kBytes, 7);
  CHECK(files_held() > before + kBytes / 2);
  CHECK(std::filesystem::is_empty(top / ""));
  {
    const run::PageKeeper idle(2 * kBytes);  // above those that are held now
    std::this_thread::sleep_for(std::chrono::milliseconds(50));
    CHECK(files_held() > before + kBytes / 2);
  }
  run::MappedCells::release_all();
  CHECK(files_held() < before + kBytes / 2);
  const run::PageKeeper keeper(kMost);
  CHECK(std::all_of(cells.begin(), cells.end(), [](std::uint8_t cell) { return cell == 7; }));
  std::fill(cells.begin(), cells.end(), std::uint8_t{9});
  CHECK(falls_to(before + 2 * kMost));
  CHECK(std::all_of(cells.begin(), cells.end(), [](std::uint8_t cell) { return cell == 9; }));
}

TEST_CASE("a keeper may be told to hold more, and less again", "[run]") {
  const test::TempFolder top;
  const UseRoom room(std::make_shared<run::FolderRoom>(top / ""));
  run::PageKeeper keeper(kMost);
  const std::size_t before = files_held();
  keeper.hold(2 * kBytes);
  GridVector<std::uint8_t> cells(kBytes, 7);
  run::PageKeeper::look();
  CHECK(files_held() > before + kBytes / 2);
  keeper.hold(kMost);
  CHECK(falls_to(before + 2 * kMost));
  CHECK(std::all_of(cells.begin(), cells.end(), [](std::uint8_t cell) { return cell == 7; }));
}
