// SPDX-License-Identifier: Apache-2.0
#include "run/memory/folder_room.hpp"

#include <utility>

namespace tidelot::run {

std::span<std::byte> FolderRoom::take(std::size_t bytes) {
  MappedCells cells = MappedCells::nameless(folder_, bytes);
  const std::span<std::byte> out = cells.bytes();
  const std::scoped_lock lock(mutex_);
  taken_.emplace(out.data(), std::move(cells));
  return out;
}

void FolderRoom::give_back(std::span<std::byte> bytes) noexcept {
  const std::scoped_lock lock(mutex_);
  taken_.erase(bytes.data());
}

}  // namespace tidelot::run
