// SPDX-License-Identifier: Apache-2.0
// Sheet: suitability in steps, more ink for more.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/sheets/ground.hpp"
#include "report/sheets/hatches.hpp"
#include "report/sheets/sheet.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason_codes.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<std::string_view, 6> kLayers{"depth",    "water", "closed",
                                                  "criteria", "sun",   "land"};
constexpr std::uint8_t kOut = 0, kDry = 1, kNotKnown = 2, kShut = 3, kFirst = 4;

std::uint8_t code_of(const ReportData& data, std::size_t cell) {
  const std::uint8_t why = data.maps.reason[cell];
  if (why == reason::kOutside || why == reason::kLand) {
    return why == reason::kLand ? kDry : kOut;
  }
  const std::uint32_t bits = data.maps.closed[cell];
  if (bits != 0 && bits != kClosedNotWater && bits != kClosedUnknown) {
    return kShut;
  }
  const float value = data.maps.suitability[cell];
  if (std::isnan(value)) {
    return kNotKnown;
  }
  const auto step = static_cast<std::size_t>(std::clamp(value, 0.0F, 1.0F) * kSteps);
  return static_cast<std::uint8_t>(kFirst + std::min(step, kSteps - 1));
}

std::string areas(const Frame& frame, const ReportData& data) {
  const Samples samples = samples_of(frame, *data.grid);
  const auto codes = coded(
      samples, [&](std::size_t cell) { return code_of(data, cell); }, kOut);
  std::string all;
  for (std::size_t step = 0; step < kSteps; ++step) {
    all +=
        area(samples, codes, static_cast<std::uint8_t>(kFirst + step), step_fill(step), {0.1, ""});
  }
  return all + area(samples, codes, kShut, kClosed, {0.2, ""}) +
         area(samples, codes, kNotKnown, kUnknown, {0.2, "1 .6"}) +
         area(samples, codes, kDry, kLand, {0.45, ""});
}

std::string curve_words(const Curve& curve) {
  std::string all;
  for (const auto& point : curve.points()) {
    all += fmt::format("{}{}: {}", all.empty() ? "" : ", ", shortest(point.x), shortest(point.y));
  }
  return all;
}

std::string criteria_table(const Plan& plan) {
  page::Table out{page::label("sources.criteria"),
                  {{page::label("sources.criterion")},
                   {page::label("sources.weight"), true},
                   {page::label("steps.measure_and_score")}},
                  {},
                  "tight"};
  for (const CriterionPlan& each : plan.criteria) {
    out.rows.push_back({page::text(page::translated(each.name)), shortest(each.weight),
                        page::text(curve_words(each.curve))});
  }
  return table(out);
}

}  // namespace

Sheet suitability(const ReportData& data) {
  Sheet out = sheet_of({"map.suitability"}, data, kLayers);
  const Frame frame = frame_of(extent_of(*data.grid), data.grid_scale, kBodyWidth - 1.0, 140.0);
  Labels labels(frame.width, frame.height);
  labels.keep({0.0, 0.0}, frame.width, 3.5);
  labels.keep({0.0, 0.0}, 12.0, frame.height);
  out.drawings = map_drawing(frame, data, "suitability", page::label("steps.in_five_steps"),
                             areas(frame, data), site_marks(frame, data, labels));
  out.beside = frame.width < kNarrow;
  std::string rows;
  for (std::size_t step = 0; step < kSteps; ++step) {
    rows +=
        legend_row(swatch(step_fill(step)), page::say("words.to_2", fixed(double(step) / kSteps, 1),
                                                      fixed(double(step + 1) / kSteps, 1)));
  }
  rows += legend_row(swatch(kClosed), page::say("map.closed_water")) +
          legend_row(swatch(kUnknown, {0.2, "1 .6"}), page::say("steps.not_known")) +
          legend_row(swatch(kLand, {0.45, ""}), page::say("map.land"));
  out.notes =
      legend(rows) +
      page::element("p", page::say(data.plan->combine == Combine::minimum ? "steps.about_lowest"
                                                                          : "steps.about_mean",
                                   shortest(data.plan->sites.min_suitability))) +
      criteria_table(*data.plan);
  return out;
}

}  // namespace tidelot::sheet
