// SPDX-License-Identifier: Apache-2.0
// Plans with slips in them, made by a seeded generator: each is read or refused with a place, and
// what is read holds what the header promises.
#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <string>
#include <string_view>

#include "tidelot/core/error.hpp"
#include "tidelot/plan/plan.hpp"

using namespace tidelot;

namespace {

constexpr std::array<std::string_view, 24> kTokens{"nan",
                                                   "-inf",
                                                   "true",
                                                   "[]",
                                                   "{}",
                                                   "\"\"",
                                                   "-1",
                                                   "1e308",
                                                   "0",
                                                   "\"auto\"",
                                                   "2024-05-15",
                                                   "[[0]]",
                                                   "[[1, 1]]",
                                                   "{a=1}",
                                                   "'x'",
                                                   "9223372036854775807",
                                                   "\"{month}\"",
                                                   "[1,2]",
                                                   "0x7f",
                                                   "\"\\u0001\"",
                                                   "[[nan,1],[1,1]]",
                                                   "1979-05-27T07:32:00Z",
                                                   "[closed]",
                                                   "x.y.z = 1"};

class Slips {
 public:
  explicit Slips(unsigned seed) : random_(seed) {}

  std::string one(std::string text) {
    switch (below(6)) {
      case 0:
        text[below(text.size())] = static_cast<char>(below(256));
        return text;
      case 1:
        return text.erase(below(text.size()), 1 + below(20));
      case 2: {
        const std::size_t at = below(text.size());
        return text.insert(below(text.size()), text.substr(at, 1 + below(80)));
      }
      case 3:
        return text.insert(below(text.size()), token());
      default:
        return value_replaced(std::move(text));
    }
  }

 private:
  std::size_t below(std::size_t count) {
    return static_cast<std::size_t>(random_()) % std::max<std::size_t>(count, 1);
  }
  std::string token() { return std::string(kTokens[below(kTokens.size())]); }

  /// The likeliest slip: a key keeps its name and gets another value.
  std::string value_replaced(std::string text) {
    const std::size_t at = text.find(" = ", below(text.size()));
    if (at == std::string::npos) {
      return text;
    }
    const std::size_t end = text.find_first_of("\n#", at);
    return text.replace(at + 3, end - at - 3, token());
  }

  std::mt19937 random_;
};

bool holds(const Plan& plan) {
  const bool weighs = std::any_of(plan.criteria.begin(), plan.criteria.end(),
                                  [](const CriterionPlan& c) { return c.weight > 0.0; });
  const bool told = std::all_of(plan.keys.begin(), plan.keys.end(),
                                [](const ResolvedKey& k) { return !k.value.empty(); });
  return weighs && told && !plan.title.empty() && plan.area.cell_m > 0.0 &&
         std::isfinite(plan.area.cell_m) && (plan.area.has_bounds || plan.area.outline) &&
         plan.closed.size() <= 24 && plan.depth.file.path.is_absolute();
}

bool has_a_place(const std::string& what) {
  return what.starts_with("p.toml:") && what.find('\n') == std::string::npos;
}

}  // namespace

TEST_CASE("A plan with slips is read or refused with a place, nothing else") {
  Slips slips(20240501);
  int read = 0;
  int refused = 0;
  for (int i = 0; i < 6000; ++i) {
    std::string text = starter_plan();
    for (int slip = 0; slip <= i % 3; ++slip) {
      text = slips.one(std::move(text));
    }
    try {
      const Plan plan = parse_plan(text, "p.toml");
      ++read;
      if (!holds(plan)) {
        FAIL_CHECK("read, but does not hold:\n" << text);
      }
    } catch (const Error& error) {
      ++refused;
      // A plan opens two files: labels, which are refused at their key, and a crop profile, which
      // counts as an input.
      if (!has_a_place(error.what()) && error.fault() != Fault::input) {
        FAIL_CHECK("no place in: " << error.what());
      }
    }
  }
  // More lines of comment in the starter take more of the slips in, and nothing is wrong with that.
  INFO(read << " read, " << refused << " refused");
  CHECK(read > 500);
  CHECK(refused > 1000);
}
