// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/sha256.hpp"

#include <catch2/catch.hpp>

namespace tidelot {
namespace {

std::string hex_of(std::string_view text) {
  Sha256 sum;
  sum.add(text);
  return sum.hex();
}

TEST_CASE("SHA-256 of the examples of FIPS 180") {
  CHECK(hex_of("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  CHECK(hex_of("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(hex_of("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}

TEST_CASE("SHA-256 does not hang on the pieces, and is written in base 64, too") {
  Sha256 sum;
  sum.add("a");
  sum.add("");
  sum.add("bc");
  CHECK(sum.base64() == "ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=");
}

}  // namespace
}  // namespace tidelot
