// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/grid_vector.hpp"

#include <cstdlib>
#include <mutex>

namespace tidelot {
namespace {

struct RoomInUse {
  std::mutex mutex;
  std::shared_ptr<GridRoom> room;
};

RoomInUse& in_use() {
  static RoomInUse room;
  return room;
}

std::shared_ptr<GridRoom> use(std::shared_ptr<GridRoom> room) {
  RoomInUse& now = in_use();
  const std::scoped_lock lock(now.mutex);
  return std::exchange(now.room, std::move(room));
}

}  // namespace

UseRoom::UseRoom(std::shared_ptr<GridRoom> room) : before_(use(std::move(room))) {}

UseRoom::~UseRoom() { use(std::move(before_)); }

std::shared_ptr<GridRoom> room_in_use() {
  RoomInUse& now = in_use();
  const std::scoped_lock lock(now.mutex);
  return now.room;
}

void walked_over(std::size_t bytes) noexcept {
  constexpr std::size_t kBetweenRests = std::size_t{4} << 20U;
  thread_local std::size_t behind = 0;
  behind += bytes;
  if (behind >= kBetweenRests) {
    behind = 0;
    if (const auto room = room_in_use()) {
      room->rest();
    }
  }
}

namespace grid_memory {

void* zeros(std::size_t bytes) {
  void* at = std::calloc(bytes, 1);
  if (at == nullptr) {
    throw std::bad_alloc();
  }
  return at;
}

void drop(void* at) noexcept { std::free(at); }

}  // namespace grid_memory
}  // namespace tidelot
