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
    {"land", 1.8, 0.5, "M.45 .45h.01M1.35 1.35h.01"},
    {"unknown", 3.0, 0.3, "M.2 .2L1.3 1.3M1.7 1.7L2.8 2.8"},
    {"closed", 1.6, 0.3, "M-.4 .4L.4 -.4M0 1.6L1.6 0M1.2 2L2 1.2"},
    {"bed", 2.0, 0.25, "M-.5 .5L.5 -.5M0 2L2 0M1.5 2.5L2.5 1.5M.4 .9h.01M1.5 1.7h.01"},
}};
constexpr std::array<Pattern, kSteps> kStepPatterns{{
    {"step-0", 4.0, 0.01, ""},
    {"step-1", 2.4, 0.2, "M0 1.2H2.4"},
    {"step-2", 1.2, 0.25, "M0 .6H1.2"},
    {"step-3", 1.2, 0.3, "M0 .6H1.2M.6 0V1.2"},
    {"step-4", 0.8, 0.4, "M0 .4H.8M.4 0V.8"},
}};
constexpr std::array<Pattern, kClasses> kClassPatterns{{
    {"class-0", 1.6, 0.25, "M-.4 .4L.4 -.4M0 1.6L1.6 0M1.2 2L2 1.2"},
    {"class-1", 2.2, 0.3, "M0 1.1H2.2M1.1 0V2.2"},
    {"class-2", 1.4, 0.3, "M0 .7H1.4"},
    {"class-3", 2.0, 0.3, "M0 0L2 2M0 2L2 0"},
    {"class-4", 1.0, 0.45, "M.5 0V1"},
    {"class-5", 2.4, 0.25, "M1.2 .5A.7 .7 0 1 1 1.19 .5"},
    {"class-6", 2.6, 0.4, "M0 .8L1.3 1.8L2.6 .8"},
    {"class-7", 1.3, 0.75, "M.65 .65h.01"},
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
