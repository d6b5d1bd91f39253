// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>
#include <string>
#include <string_view>

namespace tidelot {

/// SHA-256 of bytes that are handed over piece by piece. One sum is asked for once.
class Sha256 {
 public:
  Sha256();
  ~Sha256();
  Sha256(const Sha256&) = delete;
  Sha256& operator=(const Sha256&) = delete;

  void add(std::string_view bytes);
  [[nodiscard]] std::string hex();
  [[nodiscard]] std::string base64();

 private:
  struct Context;
  [[nodiscard]] std::string bytes();

  std::unique_ptr<Context> context_;
};

}  // namespace tidelot
