// SPDX-License-Identifier: Apache-2.0
// Bytes as plan.toml: refused in one line that says where, or a plan that holds what plan.hpp says
// and comes out the same when it is printed and read again.
#include <toml++/toml.h>

#include <cmath>
#include <sstream>
#include <string>

#include "plan/toml_place.hpp"
#include "promise.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/plan/plan.hpp"

namespace {

using namespace tidelot;
using fuzz::promise;

constexpr const char* kName = "plan.toml";

/// The plan's text as the library of TOML prints it.
std::string printed(std::string_view text) {
  std::ostringstream out;
  out << parse_toml(text, kName);
  return out.str();
}

/// Lines longer than the plan's reader takes may come of printing, as arrays are put in one.
bool has_long_line(const std::string& text) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.size() > 8000) {
      return true;
    }
  }
  return false;
}

void check_plan(const Plan& plan) {
  const AreaPlan& area = plan.area;
  promise(std::isfinite(area.cell_m) && area.cell_m > 0.0, "cells have a size");
  promise(!area.has_bounds || (area.west < area.east && area.south < area.north),
          "bounds are not turned inside out");
  promise(plan.path.is_absolute(), "the plan's path is absolute");
  for (const DepthSource& source : plan.depth.sources()) {
    promise(source.file.path.is_absolute(), "a file's path is absolute");
    promise(!source.file.written.starts_with("/vsi"), "only plain files are named");
  }
  for (const ClosedPlan& rule : plan.closed) {
    promise(rule.setback_m >= 0.0 && std::isfinite(rule.setback_m), "a setback is finite");
    promise(!rule.file.written.starts_with("/vsi"), "only plain files are named");
  }
  for (const CropConstant& c : plan.crop.constants) {
    promise(c.low <= c.value && c.value <= c.high, "a constant lies in its range");
  }
  for (const std::string& warning : plan.warnings) {
    fuzz::promise_one_line(warning);
  }
}

void check_again(const Plan& plan, std::string_view text) {
  const std::string again = printed(text);
  if (has_long_line(again)) {
    return;
  }
  const Plan other = parse_plan(again, kName);
  promise(plan.keys.size() == other.keys.size(), "a printed plan has the same keys");
  for (std::size_t i = 0; i < plan.keys.size(); ++i) {
    promise(plan.keys[i].key == other.keys[i].key && plan.keys[i].value == other.keys[i].value,
            "a printed plan has the same values");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t count) {
  const std::string_view text = fuzz::text_of(bytes, count);
  try {
    const Plan plan = parse_plan(text, kName);
    check_plan(plan);
    check_again(plan, text);
  } catch (const Error& refusal) {
    promise(refusal.fault() == Fault::plan, "a plan's fault is the plan's");
    fuzz::promise_one_line(refusal.what());
  }
  return 0;
}
