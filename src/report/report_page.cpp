// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/html.hpp"
#include "report/map_view.hpp"
#include "report/parts.hpp"
#include "report/say.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/report/report.hpp"

namespace tidelot {
namespace page {

/// How the crop is stocked and hauled, to follow "was grown day by day ...:".
std::string husbandry(const Plan& plan) {
  if (plan.crop.model == GrowthModel::kelp_frond) {
    return fmt::format("{} fronds seeded per metre of line, all hauled on the last day",
                       shortest(plan.crop.at("fronds_per_m")));
  }
  return fmt::format(
      "stocked at {} g of fresh weight per metre of line, cut back to that every {} days, hauled "
      "on the last day",
      shortest(plan.farm.stocking_g_per_m), plan.farm.harvest_days);
}

/// How the spread was made.
std::string how_sure(const Plan& plan) {
  const UncertaintyPlan& wish = plan.uncertainty;
  if (wish.draws == 0) {
    return "No spread is given in this run: every figure is the best estimate alone.";
  }
  return fmt::format(
      "The season was grown {} times over ({} members, seed {}), each time in water that differs "
      "by what the layers may be off, {}, and with another crop within the ranges of its "
      "constants. P10 lies above one member in ten and below the rest, P90 the other way round. "
      "What the members do not vary: sunshine, the rules, the layout, and how well the model "
      "itself describes the crop. run.json lists every input with its spread and who says so.",
      wish.draws, wish.draws, wish.seed,
      wish.length_m ? fmt::format("alike over about {} m", shortest(*wish.length_m))
                    : "alike all over the bay");
}

std::string method(const ReportData& data) {
  const Plan& plan = *data.plan;
  return element(
      "section id=\"method\"",
      element("h2", "How it was computed") +
          element("p",
                  fmt::format(
                      "Every layer was brought onto one grid of {} m cells. In each cell of water "
                      "the crop ({}) was grown day by day from the monthly temperature, salinity, "
                      "light, nitrogen and current: {}.",
                      shortest(plan.area.cell_m), text(plan.crop.title), husbandry(plan))) +
          element("p",
                  "Yield and nitrogen are net of what was stocked. The maps are computed without "
                  "the crop's own draw-down of nitrogen. The sites' figures are those of the map "
                  "with the draw-down of a farm along the site's long side counted, where the "
                  "water at its centre is known: the water of each day passes the lines, and each "
                  "stretch grows in what the one before it left. Neighbouring farms are not "
                  "counted.") +
          element("p", how_sure(plan)) +
          element(
              "p",
              "Suitability is the weighted geometric mean of the criteria. Water is closed where "
              "its cell's centre lies within a rule's setback or the area itself touches the "
              "cell, and where the gear would not clear the bottom at the lowest tide. Sites "
              "are ranked by the sum over the site of suitability times yield; lengths of line "
              "follow from the layout, with margins and anchor legs inside the boundary.") +
          element("p",
                  "What is not known is never taken for good: it is hatched, and a site with "
                  "too much of it is listed apart."));
}

/// The page with its maps sampled so.
std::string page_of(const ReportData& data, const Sampling& sampling, MapWriter& pictures) {
  const MapView view = view_of(data);
  const std::vector<CodedMap> maps = shown_maps(data, sampling);
  const std::string foot = for_paper(drawn_for(data) + cautions_foot());
  const std::vector<std::string> parts{
      title_block(*data.plan, label("words.report")),
      element("section id=\"the-answer\"",
              element("h2", say("answer.title")) + answer(data) + site_tables(data)) +
          foot,
      map_section(view, maps, sampling, pictures),
      foot,
      maps_on_paper(view, maps, pictures),
      foot,
      site_sheets(data),
      load_section(data),
      water_tables(data),
      method(data),
      sources(data),
      assumptions(data),
      warnings(data),
      cautions_in_full(),
  };
  return html({data.plan->title, element("main id=\"top\"", lines(parts)),
               map_json(view, maps, read_out_maps(data, sampling), sampling, pictures), true});
}

/// A page is sent by mail and opened on a phone: it is kept below 4 MB.
constexpr std::size_t kMostBytes = 3'900'000;

}  // namespace page

std::string report_html(const ReportData& data, MapWriter& pictures) {
  const page::Speaking speaking(*data.plan->report.labels);
  page::Sampling sampling = page::sampling_of(*data.grid);
  std::string all = page::page_of(data, sampling, pictures);
  while (all.size() > page::kMostBytes && std::max(sampling.cols, sampling.rows) > 300) {
    const double shrink = 0.95 * std::sqrt(page::kMostBytes / static_cast<double>(all.size()));
    const int side = std::max(sampling.cols, sampling.rows);
    sampling = page::sampling_of(*data.grid, static_cast<int>(side * shrink));
    all = page::page_of(data, sampling, pictures);
  }
  return all;
}

}  // namespace tidelot
