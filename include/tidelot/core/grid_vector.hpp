// SPDX-License-Identifier: Apache-2.0
// Vectors that may be as large as a grid, and where they lie.
#pragma once

#include <cstddef>
#include <memory>
#include <new>
#include <span>
#include <type_traits>
#include <utility>
#include <vector>

namespace tidelot {

/// Where large vectors lie. Threads may call at once.
class GridRoom {
 public:
  virtual ~GridRoom() = default;
  /// Zeros. Error(output) where there is no room left.
  [[nodiscard]] virtual std::span<std::byte> take(std::size_t bytes) = 0;
  /// bytes: as take() gave them.
  virtual void give_back(std::span<std::byte> bytes) noexcept = 0;
  /// A good moment to let go of memory that comes back by itself.
  virtual void rest() noexcept {}
};

/// Whoever walks over memory as large as a grid says how many bytes lie behind it: every few of
/// them the room in use gets a rest.
void walked_over(std::size_t bytes) noexcept;

/// Smaller vectors lie in memory of the process.
inline constexpr std::size_t kLeastInRoom = std::size_t{1} << 20U;

/// While it lives, large vectors are made in a room, whichever thread makes them; else in memory of
/// the process. A vector keeps its room alive. The last one made counts.
class UseRoom {
 public:
  explicit UseRoom(std::shared_ptr<GridRoom> room);
  ~UseRoom();
  UseRoom(const UseRoom&) = delete;
  UseRoom& operator=(const UseRoom&) = delete;

 private:
  std::shared_ptr<GridRoom> before_;
};

/// The room that counts now; null: memory of the process.
[[nodiscard]] std::shared_ptr<GridRoom> room_in_use();

namespace grid_memory {
/// Zeros in memory of the process; std::bad_alloc.
[[nodiscard]] void* zeros(std::size_t bytes);
void drop(void* at) noexcept;
}  // namespace grid_memory

/// Elements made without a value are zeros where the vector never was longer: pages that nobody
/// writes to are not taken.
template <typename T>
class GridAllocator {
 public:
  static_assert(std::is_trivially_destructible_v<T>);
  using value_type = T;
  using propagate_on_container_move_assignment = std::true_type;
  using propagate_on_container_swap = std::true_type;

  GridAllocator() : room_(room_in_use()) {}
  template <typename U>
  explicit GridAllocator(const GridAllocator<U>& other) : room_(other.room()) {}

  [[nodiscard]] T* allocate(std::size_t count) {
    const std::size_t bytes = count * sizeof(T);
    if (in_room(bytes)) {
      return reinterpret_cast<T*>(room_->take(bytes).data());
    }
    return static_cast<T*>(grid_memory::zeros(bytes));
  }
  void deallocate(T* at, std::size_t count) noexcept {
    const std::size_t bytes = count * sizeof(T);
    if (in_room(bytes)) {
      room_->give_back({reinterpret_cast<std::byte*>(at), bytes});
    } else {
      grid_memory::drop(at);
    }
  }
  template <typename U>
  void construct(U* at) noexcept {
    if constexpr (!std::is_trivially_default_constructible_v<U>) {
      ::new (static_cast<void*>(at)) U;
    }
  }
  template <typename U, typename... Values>
  void construct(U* at, Values&&... values) {
    ::new (static_cast<void*>(at)) U(std::forward<Values>(values)...);
  }
  [[nodiscard]] GridAllocator select_on_container_copy_construction() const { return {}; }
  [[nodiscard]] const std::shared_ptr<GridRoom>& room() const { return room_; }
  template <typename U>
  bool operator==(const GridAllocator<U>& other) const {
    return room_ == other.room();
  }

 private:
  [[nodiscard]] bool in_room(std::size_t bytes) const {
    return room_ != nullptr && bytes >= kLeastInRoom;
  }

  std::shared_ptr<GridRoom> room_;
};

/// A vector that may have as many elements as a grid has cells.
template <typename T>
using GridVector = std::vector<T, GridAllocator<T>>;

}  // namespace tidelot
