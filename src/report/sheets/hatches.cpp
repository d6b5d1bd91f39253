// SPDX-License-Identifier: Apache-2.0
#include "report/sheets/hatches.hpp"

#include <fmt/format.h>

namespace tidelot::sheet {
namespace {

/// Strokes in a square of the paper that is repeated: side and pen in mm.
struct Pattern {
  std::string_view name;
  double side;
  double pen;
  std::string_view strokes;
};

/// Diagonals run over the corners so that they join.
constexpr std::array<Pattern, 4> kFixed{{
    {"land", 1.8, 0.6, "M.45 .45h.01M1.35 1.35h.01"},
    {"unknown", 3.2, 0.5, "M.3 .3L1.3 1.3M1.9 1.9L2.9 2.9"},
    {"closed", 2.0, 0.45, "M-.5 .5L.5 -.5M0 2L2 0M1.5 2.5L2.5 1.5"},
    {"bed", 2.4, 0.4, "M-.6 .6L.6 -.6M0 2.4L2.4 0M1.8 3L3 1.8"},
}};
constexpr std::array<Pattern, kSteps> kStepPatterns{{
    {"step-0", 4.0, 0.01, ""},
    {"step-1", 3.0, 0.45, "M0 1.5H3"},
    {"step-2", 1.6, 0.5, "M0 .8H1.6"},
    {"step-3", 1.6, 0.45, "M0 .8H1.6M.8 0V1.6"},
    {"step-4", 1.2, 0.6, "M0 .6H1.2M.6 0V1.2"},
}};
constexpr std::array<Pattern, kClasses> kClassPatterns{{
    {"class-0", 2.0, 0.45, "M-.5 .5L.5 -.5M0 2L2 0M1.5 2.5L2.5 1.5"},
    {"class-1", 2.6, 0.45, "M0 1.3H2.6M1.3 0V2.6"},
    {"class-2", 1.8, 0.55, "M0 .9H1.8"},
    {"class-3", 2.2, 0.4, "M0 0L2.2 2.2M0 2.2L2.2 0"},
    {"class-4", 1.2, 0.6, "M.6 0V1.2"},
    {"class-5", 2.6, 0.45, "M1.3 .55A.75 .75 0 1 1 1.29 .55"},
    {"class-6", 2.8, 0.5, "M0 .8L1.4 2L2.8 .8"},
    {"class-7", 1.4, 0.85, "M.7 .7h.01"},
}};
constexpr std::array<std::string_view, kClasses> kFills{
    "url(#class-0)", "url(#class-1)", "url(#class-2)", "url(#class-3)",
    "url(#class-4)", "url(#class-5)", "url(#class-6)", "url(#class-7)"};
constexpr std::array<std::string_view, kSteps> kStepFills{
    "url(#step-0)", "url(#step-1)", "url(#step-2)", "url(#step-3)", "url(#step-4)"};
constexpr std::array<std::string_view, kClasses> kDashes{
    "", "2.4 .8", ".6 .6", "3 .7 .6 .7", "1.2 .6", "4 1", "2 .6 .6 .6", ".3 .5"};

std::string definition(const Pattern& pattern) {
  return fmt::format(
      "<pattern id=\"{0}\" width=\"{1}\" height=\"{1}\" patternUnits=\"userSpaceOnUse\">"
      "<path d=\"{2}\" stroke-width=\"{3}\"/></pattern>",
      pattern.name, pattern.side, pattern.strokes, pattern.pen);
}

}  // namespace

std::string_view step_fill(std::size_t step) { return kStepFills[step]; }
std::string_view class_fill(std::size_t each) { return kFills[each % kClasses]; }
std::string_view class_dashes(std::size_t each) { return kDashes[each % kClasses]; }

std::string pattern_definitions() {
  std::string all;
  for (const Pattern& each : kFixed) {
    all += definition(each);
  }
  for (const Pattern& each : kStepPatterns) {
    all += definition(each);
  }
  for (const Pattern& each : kClassPatterns) {
    all += definition(each);
  }
  return "<svg class=\"patterns\" width=\"0\" height=\"0\" aria-hidden=\"true\"><defs>" + all +
         "</defs></svg>\n";
}

}  // namespace tidelot::sheet
