// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/text.hpp"

#include <catch2/catch.hpp>
#include <charconv>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "tidelot/core/error.hpp"

using namespace tidelot;

TEST_CASE("The nearest word is the one with the fewest letters to change") {
  const std::vector<std::string> keys{"line_depth_m", "line_gap_m", "margin_m", "scope"};
  CHECK(nearest_word("line_gap", keys) == "line_gap_m");
  CHECK(nearest_word("scop", keys) == "scope");
  CHECK(nearest_word("margin_n", keys) == "margin_m");
  CHECK(nearest_word("scope", keys) == "scope");
}

TEST_CASE("A word that is far from all gets no advice") {
  const std::vector<std::string> keys{"scope", "margin_m"};
  CHECK(nearest_word("temperature", keys).empty());
  CHECK(nearest_word("xyz", keys).empty());
  CHECK(nearest_word("scope", {}).empty());
  CHECK(nearest_word("", keys).empty());
}

TEST_CASE("Advice allows a third of the letters, two at least") {
  const std::vector<std::string> one{"abcdefghi"};
  CHECK(nearest_word("abcdefxyz", one) == "abcdefghi");
  CHECK(nearest_word("abcdewxyz", one).empty());
  const std::vector<std::string> brief{"abcd"};
  CHECK(nearest_word("abxy", brief) == "abcd");
  CHECK(nearest_word("axyz", brief).empty());
}

TEST_CASE("A word is not like one that shares no letter with it") {
  const std::vector<std::string> units{"ft", "m"};
  CHECK(nearest_word("cd", units).empty());
  CHECK(nearest_word("x", units).empty());
}

TEST_CASE("Of equally near words the first is taken") {
  const std::vector<std::string> words{"gap_a", "gap_b"};
  CHECK(nearest_word("gap_c", words) == "gap_a");
}

TEST_CASE("The shortest text reads back to the same number") {
  CHECK(shortest(0.1) == "0.1");
  CHECK(shortest(5.0) == "5");
  CHECK(shortest(-0.4) == "-0.4");
  CHECK(shortest(1e20) == "1e+20");
  CHECK(shortest(-0.0) == "0");
  for (const double value : {1.0 / 3.0, 2.0 / 3.0, 1e-300, 34.05, 6.02214076e23, 4607921.123456}) {
    const std::string text = shortest(value);
    double read = 0.0;
    std::from_chars(text.data(), text.data() + text.size(), read);
    CHECK(read == value);
  }
}

TEST_CASE("A fixed count of decimals never prints a negative zero") {
  CHECK(fixed(1.005, 1) == "1.0");
  CHECK(fixed(-0.004, 2) == "0.00");
  CHECK(fixed(-0.0, 0) == "0");
  CHECK(fixed(-0.006, 2) == "-0.01");
  CHECK(fixed(0.0, 3) == "0.000");
  CHECK(fixed(1e15, 0) == "1000000000000000");
  CHECK(fixed(-30.1, 6) == "-30.100000");
}

TEST_CASE("Not known is one word whatever its sign bit") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(shortest(nan) == "nan");
  CHECK(shortest(std::copysign(nan, -1.0)) == "nan");
  CHECK(fixed(std::copysign(nan, -1.0), 2) == "nan");
}

TEST_CASE("Well-formed UTF-8 is told from what only looks like it") {
  for (const std::string text : {"", "plain", "\xC3\xA9", "\xE2\x80\xB0", "\xF0\x9F\x8C\x8A",
                                 "\xED\x9F\xBF", "\xEE\x80\x80", "\xF4\x8F\xBF\xBF", "\xC2\x80"}) {
    CHECK(is_utf8(text));
  }
  CHECK(is_utf8(std::string_view("\0", 1)));
  for (const std::string text :
       {"\x80", "\xC3", "\xC0\xAF", "\xC1\xBF", "\xE0\x80\xAF", "\xE0\x9F\xBF", "\xE2\x82",
        "\xED\xA0\x80", "\xED\xBF\xBF", "\xF0\x80\x80\x80", "\xF0\x8F\xBF\xBF", "\xF4\x90\x80\x80",
        "\xF5\x80\x80\x80", "\xFF", "\xFE", "a\xC3(", "\xE2\x28\xA1", "caf\xE9"}) {
    CHECK_FALSE(is_utf8(text));
  }
}

TEST_CASE("foreign text is one line that steers nothing") {
  CHECK(one_line("Herons' Bay, 5 \xC2\xB0"
                 "C \xF0\x9F\x8C\x8A") ==
        "Herons' Bay, 5 \xC2\xB0"
        "C \xF0\x9F\x8C\x8A");
  CHECK(one_line(std::string_view("a\0b\n\r\t\x1B[31m\x7F", 12)) == "a?b????[31m?");
  CHECK(one_line("\xC2\x85\xC2\x9B\xC2\xA0") == "??\xC2\xA0");                  // C1
  CHECK(one_line("\xE2\x80\xA7\xE2\x80\xA8\xE2\x80\xA9") == "\xE2\x80\xA7??");  // lines
  CHECK(one_line("\xEF\xBF\xBD\xEF\xBF\xBE\xEF\xBF\xBF\xF0\x9F\xBF\xBF") == "\xEF\xBF\xBD???");
  CHECK(one_line("caf\xE9\xED\xA0\x80") == "caf????");  // not UTF-8
  CHECK(one_line("").empty());
}

TEST_CASE("a message is one line whatever it was made of") {
  CHECK(std::string(Error(Fault::plan, "a\nb\x1B").what()) == "a?b?");
}

TEST_CASE("foreign text amid a message is cut, never within a character") {
  CHECK(foreign_text(std::string(300, 'a')) == std::string(300, 'a'));
  CHECK(foreign_text(std::string(301, 'a')) == std::string(300, 'a') + "...");
  CHECK(foreign_text(std::string(299, 'a') + "\xC3\xA9") == std::string(299, 'a') + "...");
}

TEST_CASE("only A to Z are made small") {
  CHECK(lower_ascii("DEG C_09Z") == "deg c_09z");
  CHECK(lower_ascii("\xC2\xB0"
                    "C\xC3\x84") ==
        "\xC2\xB0"
        "c\xC3\x84");
}
