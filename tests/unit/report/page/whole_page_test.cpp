// SPDX-License-Identifier: Apache-2.0
#include "report/page/whole_page.hpp"

#include <catch2/catch.hpp>

namespace tidelot::page {
namespace {

TEST_CASE("a page's policy knows its style and its script by their sums", "[report]") {
  CHECK(policy("abc", "") ==
        "default-src 'none'; base-uri 'none'; form-action 'none'; img-src data:; style-src "
        "'sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0='; script-src 'none'");
  CHECK(policy("abc", "abc")
            .ends_with("script-src 'sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0='"));
  CHECK(policy("abc", "abd") != policy("abc", "abc"));
}

}  // namespace
}  // namespace tidelot::page
