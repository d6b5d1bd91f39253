// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <string_view>

/// The few calls to the operating system that durable files need. Each throws Error(output), naming
/// the file and the system's own words.
namespace tidelot::os {

/// Makes a new file with this text, syncs it and checks its size.
void write_new_file(const std::filesystem::path& path, std::string_view text);
/// fsync of a file or a folder.
void sync(const std::filesystem::path& path);
/// rename(2).
void move(const std::filesystem::path& from, const std::filesystem::path& to);
/// mkdir; true when it was made, false when a folder was there already.
bool make_folder(const std::filesystem::path& path);
/// Makes a file and locks it for this process; the lock goes when the descriptor closes, however
/// the process ends.
[[nodiscard]] int lock_new_file(const std::filesystem::path& path);
/// Does a living process hold the lock of this file? No when there is no such file.
[[nodiscard]] bool is_locked(const std::filesystem::path& path);
/// close(2) of a lock; a negative descriptor is none.
void unlock(int descriptor) noexcept;
/// Removes a file or a tree; best effort, for clean-up that must not throw.
void discard(const std::filesystem::path& path) noexcept;

}  // namespace tidelot::os
