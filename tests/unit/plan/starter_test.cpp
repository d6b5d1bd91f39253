// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <iterator>
#include <locale>
#include <sstream>
#include <string>
#include <vector>

#include "plan/key_table.hpp"
#include "tidelot/plan/plan.hpp"

using namespace tidelot;

namespace {

/// The starter with every key that is commented out taken into use: "# key = ..." and "# [table]".
std::string all_in_use() {
  std::istringstream lines(starter_plan());
  std::string out;
  for (std::string line; std::getline(lines, line);) {
    const bool table = line.starts_with("# [");
    const std::size_t equals = line.find(" = ");
    const bool key = line.starts_with("# ") && !line.starts_with("#   ") &&
                     equals != std::string::npos &&
                     line.find_first_not_of("abcdefghijklmnopqrstuvwxyz_ ", 2) == equals + 1;
    out += (table || key ? line.substr(2) : line) + "\n";
  }
  return out;
}

std::string without(std::string text, const std::string& line_start) {
  const std::size_t at = text.find("\n" + line_start);
  REQUIRE(at != std::string::npos);
  return text.erase(at, text.find('\n', at + 1) - at);
}

/// The numbers in a text, "6" and "6.0" alike.
std::vector<double> numbers_in(std::string text) {
  for (char& c : text) {
    c = std::string_view("-.0123456789").find(c) == std::string_view::npos ? ' ' : c;
  }
  std::istringstream in(text);
  in.imbue(std::locale::classic());
  return {std::istream_iterator<double>(in), {}};
}

bool same_value(const std::string& one, const std::string& other) {
  return one == other ||
         (one.front() != '"' && !numbers_in(one).empty() && numbers_in(one) == numbers_in(other));
}

}  // namespace

TEST_CASE("The starter is a plan that holds") {
  const Plan plan = parse_plan(starter_plan(), "plan.toml");
  CHECK(plan.title == "My bay");
  CHECK(plan.report.waterbody.empty());
  CHECK(plan.closed.empty());
  CHECK(plan.warnings.size() == 2);  // the tides are nobody's own
}

TEST_CASE("The starter holds with the keys it leaves out taken into use") {
  const std::string text = without(all_in_use(), "sunshine");
  const Plan plan = parse_plan(text, "plan.toml");
  CHECK(plan.closed.size() == 1);
  CHECK(plan.criteria.size() == 7);
  CHECK(plan.crop.at("t_opt") == 24.0);
  CHECK(plan.season.gear_in == 121);
}

TEST_CASE("The starter shows every key that is built") {
  const std::string text = starter_plan();
  for (const planfile::Key& key : planfile::keys()) {
    const bool by_name = key.name != "*" && key.kind != planfile::Kind::later;
    INFO(key.table << "." << key.name);
    CHECK((!by_name || text.find(std::string(key.name)) != std::string::npos));
  }
}

TEST_CASE("Values in the starter are the defaults") {
  const Plan starter = parse_plan(without(all_in_use(), "sunshine"), "plan.toml");
  for (const ResolvedKey& key : starter.keys) {
    for (const planfile::Key& stated : planfile::keys()) {
      const bool same = key.key == std::string(stated.table) + "." + std::string(stated.name);
      const bool example = stated.table == "load" || stated.table == "money" ||
                           key.key == "report.waterbody" || key.key == "sun.variable";
      if (same && !stated.fallback.empty() && !example) {
        INFO(key.key << " = " << key.value);
        CHECK(same_value(key.value, std::string(stated.fallback)));
      }
    }
  }
}
