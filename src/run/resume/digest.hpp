// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace tidelot::run {

/// SHA-256 of a file's bytes in hexadecimal, and its size. Error(input) when it cannot be read. Of
/// a file on a server, of which only parts were fetched, its size alone.
struct Digest {
  std::string sha256;
  std::uintmax_t bytes = 0;
};
[[nodiscard]] Digest digest_of(const std::filesystem::path& file, const std::string& written);

/// SHA-256 of a text in hexadecimal.
[[nodiscard]] std::string sha256_of(std::string_view text);

}  // namespace tidelot::run
