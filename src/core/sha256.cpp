// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/sha256.hpp"

#include <fmt/format.h>
#include <openssl/evp.h>

#include <array>
#include <stdexcept>

namespace tidelot {

struct Sha256::Context {
  std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> of{EVP_MD_CTX_new(), &EVP_MD_CTX_free};
};

Sha256::Sha256() : context_(std::make_unique<Context>()) {
  if (!context_->of || EVP_DigestInit_ex(context_->of.get(), EVP_sha256(), nullptr) != 1) {
    throw std::runtime_error("SHA-256 is not there");
  }
}

Sha256::~Sha256() = default;

void Sha256::add(std::string_view bytes) {
  EVP_DigestUpdate(context_->of.get(), bytes.data(), bytes.size());
}

std::string Sha256::bytes() {
  std::array<unsigned char, EVP_MAX_MD_SIZE> raw{};
  unsigned int length = 0;
  EVP_DigestFinal_ex(context_->of.get(), raw.data(), &length);
  return {raw.begin(), raw.begin() + length};
}

std::string Sha256::hex() {
  std::string out;
  for (const char byte : bytes()) {
    out += fmt::format("{:02x}", static_cast<unsigned char>(byte));
  }
  return out;
}

std::string Sha256::base64() {
  const std::string raw = bytes();
  std::array<unsigned char, std::size_t{2} * EVP_MAX_MD_SIZE> out{};
  const int length = EVP_EncodeBlock(out.data(), reinterpret_cast<const unsigned char*>(raw.data()),
                                     static_cast<int>(raw.size()));
  return {out.begin(), out.begin() + length};
}

}  // namespace tidelot
