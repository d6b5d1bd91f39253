// SPDX-License-Identifier: Apache-2.0
#include "run/resume/digest.hpp"

#include <fmt/format.h>

#include <fstream>
#include <vector>

#include "tidelot/core/error.hpp"
#include "tidelot/core/sha256.hpp"

namespace tidelot::run {

Digest digest_of(const std::filesystem::path& file, const std::string& written) {
  std::ifstream in(file, std::ios::binary);
  if (!in) {
    throw Error(Fault::input, fmt::format("{}: cannot be read; check its permissions", written));
  }
  Sha256 sum;
  Digest out;
  std::vector<char> block(1U << 20U);
  while (in) {
    in.read(block.data(), static_cast<std::streamsize>(block.size()));
    const auto got = static_cast<std::size_t>(in.gcount());
    sum.add({block.data(), got});
    out.bytes += got;
  }
  if (in.bad()) {
    throw Error(Fault::input, fmt::format("{}: reading it failed half way", written));
  }
  out.sha256 = sum.hex();
  return out;
}

std::string sha256_of(std::string_view text) {
  Sha256 sum;
  sum.add(text);
  return sum.hex();
}

}  // namespace tidelot::run
