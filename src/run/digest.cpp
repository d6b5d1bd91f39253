// SPDX-License-Identifier: Apache-2.0
#include "run/digest.hpp"

#include <fmt/format.h>
#include <openssl/evp.h>

#include <array>
#include <fstream>
#include <memory>
#include <vector>

#include "tidelot/core/error.hpp"

namespace tidelot::run {

Digest digest_of(const std::filesystem::path& file, const std::string& written) {
  std::ifstream in(file, std::ios::binary);
  const std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> context(EVP_MD_CTX_new(),
                                                                        &EVP_MD_CTX_free);
  if (!in || !context || EVP_DigestInit_ex(context.get(), EVP_sha256(), nullptr) != 1) {
    throw Error(Fault::input, fmt::format("{}: cannot be read; check its permissions", written));
  }
  Digest out;
  std::vector<char> block(1U << 20U);
  while (in) {
    in.read(block.data(), static_cast<std::streamsize>(block.size()));
    const auto got = static_cast<std::size_t>(in.gcount());
    EVP_DigestUpdate(context.get(), block.data(), got);
    out.bytes += got;
  }
  if (in.bad()) {
    throw Error(Fault::input, fmt::format("{}: reading it failed half way", written));
  }
  std::array<unsigned char, EVP_MAX_MD_SIZE> raw{};
  unsigned int length = 0;
  EVP_DigestFinal_ex(context.get(), raw.data(), &length);
  for (unsigned int i = 0; i < length; ++i) {
    out.sha256 += fmt::format("{:02x}", raw[i]);
  }
  return out;
}

}  // namespace tidelot::run
