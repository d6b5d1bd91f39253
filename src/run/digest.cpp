// SPDX-License-Identifier: Apache-2.0
#include "run/digest.hpp"

#include <fmt/format.h>
#include <openssl/evp.h>

#include <array>
#include <fstream>
#include <memory>
#include <stdexcept>
#include <vector>

#include "tidelot/core/error.hpp"

namespace tidelot::run {
namespace {

class Sha256 {
 public:
  Sha256() : context_(EVP_MD_CTX_new(), &EVP_MD_CTX_free) {
    if (!context_ || EVP_DigestInit_ex(context_.get(), EVP_sha256(), nullptr) != 1) {
      throw std::runtime_error("SHA-256 is not there");
    }
  }
  void add(const char* bytes, std::size_t count) { EVP_DigestUpdate(context_.get(), bytes, count); }
  [[nodiscard]] std::string hex() {
    std::array<unsigned char, EVP_MAX_MD_SIZE> raw{};
    unsigned int length = 0;
    EVP_DigestFinal_ex(context_.get(), raw.data(), &length);
    std::string out;
    for (unsigned int i = 0; i < length; ++i) {
      out += fmt::format("{:02x}", raw[i]);
    }
    return out;
  }

 private:
  std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> context_;
};

}  // namespace

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
    sum.add(block.data(), got);
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
  sum.add(text.data(), text.size());
  return sum.hex();
}

}  // namespace tidelot::run
