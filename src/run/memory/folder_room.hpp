// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <map>
#include <mutex>

#include "run/memory/mapped_cells.hpp"
#include "run/memory/page_keeper.hpp"
#include "tidelot/core/grid_vector.hpp"

namespace tidelot::run {

/// Room in files without a name in a folder: the system may take their pages back, so that a grid
/// may be larger than memory.
class FolderRoom final : public GridRoom {
 public:
  explicit FolderRoom(std::filesystem::path folder) : folder_(std::move(folder)) {}
  [[nodiscard]] std::span<std::byte> take(std::size_t bytes) override;
  void give_back(std::span<std::byte> bytes) noexcept override;
  void rest() noexcept override { PageKeeper::look(); }

 private:
  std::filesystem::path folder_;
  std::mutex mutex_;
  std::map<std::byte*, MappedCells> taken_;
};

}  // namespace tidelot::run
