// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/grid_vector.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <thread>

using namespace tidelot;

namespace {

constexpr std::size_t kLarge = 2 * kLeastInRoom;

/// Counts what it gives out.
class CountingRoom final : public GridRoom {
 public:
  std::span<std::byte> take(std::size_t bytes) override {
    std::vector<std::byte>& out = given_.emplace_back(bytes);
    return out;
  }
  void give_back(std::span<std::byte> bytes) noexcept override {
    given_.erase(std::find_if(given_.begin(), given_.end(),
                              [&](const auto& each) { return each.data() == bytes.data(); }));
  }
  void rest() noexcept override { ++rests_; }
  [[nodiscard]] std::size_t given() const { return given_.size(); }
  [[nodiscard]] int rests() const { return rests_; }

 private:
  int rests_ = 0;
  std::vector<std::vector<std::byte>> given_;
};

template <typename T>
bool all_zero(const GridVector<T>& values) {
  return std::all_of(values.begin(), values.end(), [](T value) { return value == T{}; });
}

}  // namespace

TEST_CASE("a vector of a grid's size begins as zeros, in a room or without") {
  const GridVector<std::uint8_t> without(kLarge);
  CHECK(all_zero(without));
  const auto room = std::make_shared<CountingRoom>();
  const UseRoom use(room);
  const GridVector<std::uint8_t> with(kLarge);
  CHECK(all_zero(with));
  CHECK(room->given() == 1);
}

TEST_CASE("only large vectors lie in the room, and they go with it") {
  const auto room = std::make_shared<CountingRoom>();
  GridVector<float> kept;
  {
    const UseRoom use(room);
    const GridVector<float> small(10, 1.0F);
    CHECK(room->given() == 0);
    kept = GridVector<float>(kLarge, 1.0F);
    CHECK(room->given() == 1);
    std::thread([&] { CHECK(GridVector<float>(kLarge).get_allocator().room() == room); }).join();
  }
  CHECK(room_in_use() == nullptr);
  CHECK(room->given() == 1);
  const GridVector<float> copy = kept;  // made where no room is in use
  CHECK(room->given() == 1);
  CHECK(copy == kept);
  kept = GridVector<float>();
  CHECK(room->given() == 0);
  CHECK(room.use_count() == 1);
}

TEST_CASE("a vector that grows keeps what it holds") {
  const auto room = std::make_shared<CountingRoom>();
  const UseRoom use(room);
  GridVector<std::size_t> grown;
  for (std::size_t i = 0; i < kLarge; ++i) {
    grown.push_back(i);
  }
  CHECK(room->given() == 1);
  CHECK(grown[kLarge - 1] == kLarge - 1);
  CHECK(grown[7] == 7);
}

TEST_CASE("a room gets a rest every few bytes that were walked over") {
  const auto room = std::make_shared<CountingRoom>();
  walked_over(std::size_t{1} << 30U);  // no room: nothing happens
  const UseRoom use(room);
  for (int row = 0; row < 1000; ++row) {
    walked_over(std::size_t{1} << 18U);
  }
  CHECK(room->rests() >= 20);
  CHECK(room->rests() <= 100);
}
