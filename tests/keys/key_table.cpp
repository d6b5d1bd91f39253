// SPDX-License-Identifier: Apache-2.0
// Prints the table of the plan's keys and the plan to begin from as JSON: what keys_page.py makes
// docs/user/keys.md of.
#include "plan/key_table.hpp"

#include <cmath>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "tidelot/plan/plan.hpp"

namespace {

using tidelot::planfile::Key;
using tidelot::planfile::Kind;

std::string_view kind_words(Kind kind) {
  switch (kind) {
    case Kind::text:
    case Kind::free_text:
      return "text";
    case Kind::choice:
      return "one of";
    case Kind::words:
      return "list of";
    case Kind::number:
      return "number";
    case Kind::whole:
      return "whole number";
    case Kind::day:
      return "\"MM-DD\"";
    case Kind::day_or_auto:
      return "\"auto\" or \"MM-DD\"";
    case Kind::file:
      return "file";
    case Kind::monthly_file:
      return "file, or twelve with {month}";
    case Kind::number_or_file:
      return "number, or a raster file";
    case Kind::twelve:
      return "twelve numbers";
    case Kind::number_or_twelve:
      return "number, or twelve";
    case Kind::bounds:
      return "[west, south, east, north]";
    case Kind::lon_lat:
      return "[lon, lat]";
    case Kind::boxes:
      return "four corners [lon, lat], or a list of such";
    case Kind::curve:
      return "[[measure, score], ...]";
    case Kind::months:
      return "list of months";
    case Kind::judgements:
      return "[[one, other, times], ...]";
    case Kind::numbers_table:
    case Kind::table:
      return "table";
    case Kind::tables:
      return "list of tables";
    case Kind::later:
      return "later";
  }
  return "";
}

nlohmann::ordered_json row(const Key& key) {
  nlohmann::ordered_json out{
      {"table", key.table},      {"name", key.name},       {"kind", kind_words(key.kind)},
      {"default", key.fallback}, {"basis", key.basis},     {"words", key.words},
      {"unit", key.unit},        {"meaning", key.meaning}, {"required", key.required}};
  if (std::isfinite(key.low)) {
    out["low"] = key.low;
    out["high"] = key.high;
  }
  return out;
}

}  // namespace

int main() {
  nlohmann::ordered_json all{{"keys", nlohmann::ordered_json::array()},
                             {"starter", tidelot::starter_plan()}};
  for (const Key& key : tidelot::planfile::keys()) {
    all["keys"].push_back(row(key));
  }
  std::printf("%s\n", all.dump().c_str());
}
